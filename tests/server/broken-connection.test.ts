/** A connection that breaks in the middle of a transaction fails that transaction, and nothing else. */
import { expect, it } from "vitest";
import { openDatabase } from "../../server/store/database.ts";
import { postgresIsInstalled, startPostgres } from "./postgres.ts";

it.skipIf(!postgresIsInstalled())(
  "a transaction whose connection is ended between two statements is refused (skipped without PostgreSQL)",
  async () => {
    const postgres = await startPostgres();
    const database = await openDatabase({ url: await postgres.database() });
    const faults: unknown[] = [];
    const note = (error: unknown) => faults.push(error);
    process.on("uncaughtException", note);
    const ended = database.transaction(async (inside) => {
      const [row] = await inside.query<{ pid: number }>("select pg_backend_pid() as pid");
      // PostgreSQL manual, 9.28.2: ends the backend with this number.
      await database.query("select pg_terminate_backend($1)", [row!.pid]);
      for (;;) {
        const left = await database.query("select 1 from pg_stat_activity where pid = $1", [row!.pid]);
        if (left.length === 0) break;
      }
      await inside.query("select 1");
    });
    await expect(ended).rejects.toThrow();
    expect(await database.query("select 1 as one")).toEqual([{ one: 1 }]);
    process.off("uncaughtException", note);
    expect(faults).toEqual([]);
    await database.close();
    postgres.stop();
  },
);
