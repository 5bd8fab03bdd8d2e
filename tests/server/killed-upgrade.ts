/** A process that upgrades a store and dies in the middle: node --import tsx killed-upgrade.ts PLACE STATEMENTS. */
import { openDatabase, type Queryable } from "../../server/store/database.ts";
import { takeSteps } from "../../server/store/migrations.ts";

const [place, statements] = process.argv.slice(2) as [string, string];
const database = await openDatabase(place.startsWith("postgres:") ? { url: place } : { folder: place });
let left = Number(statements);
await database.transaction(async (inside) => {
  const dying: Queryable = {
    query: async (text, values) => {
      const rows = await inside.query(text, values);
      if (--left === 0) process.kill(process.pid, "SIGKILL");
      return rows as never;
    },
  };
  await takeSteps(dying);
});
