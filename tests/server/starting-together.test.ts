/** Servers and workers that start at the same moment on a new database make its tables once. */
import { expect, it } from "vitest";
import { openQueue } from "../../server/jobs/queue.ts";
import { openDatabase } from "../../server/store/database.ts";
import { migrate } from "../../server/store/migrations.ts";
import { postgresIsInstalled, startPostgres } from "./postgres.ts";

it.skipIf(!postgresIsInstalled())(
  "five at once on one PostgreSQL server (skipped where it is not installed)",
  async () => {
    const postgres = await startPostgres();
    const url = await postgres.database();
    const warnings: unknown[] = [];
    const start = async () => {
      const database = await openDatabase({ url });
      await migrate(database);
      return { database, queue: await openQueue(database, (error) => warnings.push(error)) };
    };
    const started = await Promise.all([1, 2, 3, 4, 5].map(start));
    const [first] = started;
    await first!.database.transaction((inside) => first!.queue.add(inside, ["one"]));
    expect((await started[4]!.queue.take(9)).map(({ item }) => item)).toEqual(["one"]);
    expect(warnings).toEqual([]);
    for (const { queue, database } of started) {
      await queue.close();
      await database.close();
    }
    postgres.stop();
  },
);
