/** `npm run -s token -- NAME`: makes an owner's token in the store and prints it, once. */
import { resolve } from "node:path";
import { databaseWaitOf, orOneLine } from "./settings.ts";
import { openDatabase } from "./store/database.ts";
import { migrate } from "./store/migrations.ts";
import { createToken } from "./store/tokens.ts";

const name = process.argv[2];
if (name === undefined) {
  console.error("Say whose token it is: npm run -s token -- NAME");
  process.exitCode = 2;
} else {
  await orOneLine(async () => {
    const database = await openDatabase({
      url: process.env.DATABASE_URL,
      folder: resolve(process.env.DATA_DIR ?? "data"),
      waitSeconds: databaseWaitOf(process.env.DATABASE_WAIT),
    });
    await migrate(database);
    const { token } = await createToken(database, { name, role: "owner", scope: [] });
    await database.close();
    console.log(token);
  });
}
