/** The real server in a process of its own, on the store in the folder that is named; prints its address. */
import { startServer } from "../../server/start.ts";

const server = await startServer({ port: 0, dataDir: process.argv[2] ?? null });
console.log(server.url);
process.on("SIGTERM", () => {
  void server.close().then(() => process.exit(0));
});
