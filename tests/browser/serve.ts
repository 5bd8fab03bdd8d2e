/** The real server in a process of its own, with an empty store and the demo takes; prints its address. */
import { startServer } from "../../server/start.ts";

const server = await startServer({ port: 0, dataDir: null });
console.log(server.url);
process.on("SIGTERM", () => {
  void server.close().then(() => process.exit(0));
});
