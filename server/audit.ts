/**
 * Notes who reads and writes what of persons. Entries are gathered for a second and written together, so that a page
 * that asks for a handful of things is no handful of writes; the same request again within that second is counted.
 */
import type { Request, Response } from "express";
import { type Noted, type NotedTimes, writeAudit } from "./store/audit.ts";
import type { Database } from "./store/database.ts";

const GATHER_MS = 1000;
/** While the store is away, no more than so many different entries are held. */
const MOST_HELD = 10_000;

/** First words of the paths whose routes are about persons, or about who reaches them. */
const ABOUT_PERSONS: ReadonlySet<string> = new Set([
  ...["takes", "deleted", "players", "class", "lessons", "compare", "search", "corpora", "jobs"],
  ...["tokens", "audit", "backup"],
]);

/** Of a route, what tells whether it is about persons, and whether it writes. */
interface Noticed {
  readonly method: string;
  readonly path: string;
  readonly keeps?: false;
}

export interface Audit {
  /** Notes an answer to a request of this actor, when it was about persons. */
  note(
    route: Noticed,
    actor: Pick<Noted, "role" | "token">,
    request: Pick<Request, "params">,
    response: Pick<Response, "statusCode">,
  ): void;
  /** Writes what is gathered. */
  flush(): Promise<void>;
  close(): Promise<void>;
}

/** @param warn told what could not be written; it is tried again */
export function createAudit(database: Database, warn: (error: unknown) => void): Audit {
  let held = new Map<string, NotedTimes>();
  const hold = (entry: Noted, times: number) => {
    const key = JSON.stringify(entry);
    const known = held.get(key);
    if (known !== undefined || held.size < MOST_HELD)
      held.set(key, { ...entry, times: (known?.times ?? 0) + times });
  };
  const flush = async () => {
    if (held.size === 0) return;
    const entries = [...held.values()];
    held = new Map();
    try {
      await writeAudit(database, entries);
    } catch (error) {
      for (const { times, ...entry } of entries) hold(entry, times);
      warn(error);
    }
  };
  const timer = setInterval(() => void flush(), GATHER_MS).unref();
  return {
    note: (route, { role, token }, request, response) => {
      if (!ABOUT_PERSONS.has(route.path.split("/")[1]!)) return;
      const reads = route.method === "get" || route.keeps === false;
      const { id } = request.params;
      // What was refused may be about nothing that there is: what was typed in its place is not kept.
      const about = response.statusCode < 400 && typeof id === "string" ? id : null;
      const action = reads ? "read" : "write";
      const { method, path } = route;
      hold({ token, role, action, method, route: path, about, status: response.statusCode }, 1);
    },
    flush,
    close: async () => {
      clearInterval(timer);
      await flush();
    },
  };
}
