/** `GET /audit`: who read and wrote what of persons. */
import { auditQuery, auditSchema } from "../contract/audit.ts";
import { type Route, route } from "../route.ts";
import { readAudit } from "../store/audit.ts";

/** @param all every route, whose summaries say what an entry was for */
export const auditRoutes = (all: () => readonly Route[]): readonly Route[] => [
  route({
    method: "get",
    path: "/audit",
    access: "owner",
    summary: "Who read and wrote what of persons, the newest first, a page at a time",
    query: auditQuery,
    answers: { 200: { description: "entries", schema: auditSchema } },
    example: {},
    handle: async ({ query, services }) => {
      await services.audit.flush();
      const stored = await readAudit(services.database, query);
      const entries = stored.map((entry) => ({ ...entry, what: whatOf(entry, all()) }));
      const next = entries.length < query.limit ? null : (entries.at(-1)?.id ?? null);
      return { status: 200, json: { entries, next } };
    },
  }),
];

function whatOf(entry: { readonly method: string; readonly route: string }, all: readonly Route[]) {
  return all.find(({ method, path }) => method === entry.method && path === entry.route)?.summary ?? null;
}
