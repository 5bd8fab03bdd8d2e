/** Workers tell the store that they live, so that a server without one of its own knows whether jobs are worked on. */
import { randomUUID } from "node:crypto";
import type { Database, Queryable } from "./database.ts";

/** A worker tells that it lives this often, in milliseconds. */
const TELL_MS = 5000;
/** One that has not told for so long counts as dead, in seconds. */
const DEAD_SECONDS = 30;

/** Number of workers that told lately that they live. */
export async function workersSeen(database: Queryable): Promise<number> {
  const rows = await database.query<{ seen: number }>(
    "select count(*)::int as seen from workers where seen_at > now() - make_interval(secs => $1)",
    [DEAD_SECONDS],
  );
  return rows[0]!.seen;
}

/** Tells from now on that a worker lives, while it does. @returns what ends that */
export async function tellAlive(database: Database, alive: () => boolean): Promise<() => Promise<void>> {
  const id = randomUUID();
  const tell = async () => {
    if (!alive()) return;
    await database.query(
      `with dead as (delete from workers where seen_at < now() - interval '1 day')
       insert into workers (id, seen_at) values ($1, now()) on conflict (id) do update set seen_at = now()`,
      [id],
    );
  };
  await tell();
  // While the store is away there is nobody to tell.
  const timer = setInterval(() => void tell().catch(() => {}), TELL_MS);
  return async () => {
    clearInterval(timer);
    await database.query("delete from workers where id = $1", [id]).catch(() => {});
  };
}
