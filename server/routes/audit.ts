/** `GET /audit`: who read and wrote what of persons. */
import { auditQuery, auditSchema } from "../contract/audit.ts";
import { type Route, route } from "../route.ts";
import { readAudit } from "../store/audit.ts";

export const auditRoutes: readonly Route[] = [
  route({
    method: "get",
    path: "/audit",
    access: "owner",
    summary: "Who read and wrote what of persons, by ids, the newest first, a page at a time",
    query: auditQuery,
    answers: { 200: { description: "entries", schema: auditSchema } },
    example: {},
    handle: async ({ query, services }) => {
      await services.audit.flush();
      const entries = await readAudit(services.database, query);
      const next = entries.length < query.limit ? null : (entries.at(-1)?.id ?? null);
      return { status: 200, json: { entries, next } };
    },
  }),
];
