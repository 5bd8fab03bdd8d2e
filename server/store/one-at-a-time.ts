/** Work on a shared store that two starting processes must not do at the same time. */
import type { Database } from "./database.ts";

/** Any number that nobody else locks by. */
const LOCK = 7_204_411;

/** Does the work while no other process on the same PostgreSQL server does its own; the embedded store is for one anyhow. */
export async function oneAtATime<T>(database: Database, work: () => Promise<T>): Promise<T> {
  if (database.kind === "embedded") return work();
  return database.transaction(async (inside) => {
    await inside.query("select pg_advisory_xact_lock($1)", [LOCK]);
    return work();
  });
}
