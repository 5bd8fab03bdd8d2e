/** `npm start`. HOST, PORT, DATA_DIR, DATABASE_URL, CORPUS_DIR, THREADS, PROXIES, DEMO=off and WORKER=off may be set. */
import { resolve } from "node:path";
import pino from "pino";
import { describeProblem, Problem } from "../src/take/index.ts";
import { threadsOf } from "./analysis/threads.ts";
import { startServer } from "./start.ts";

try {
  const server = await startServer({
    host: process.env.HOST ?? "127.0.0.1",
    port: Number(process.env.PORT ?? 4000),
    dataDir: resolve(process.env.DATA_DIR ?? "data"),
    databaseUrl: process.env.DATABASE_URL,
    corpusDir: process.env.CORPUS_DIR ?? null,
    demo: process.env.DEMO !== "off",
    worker: process.env.WORKER !== "off",
    threads: threadsOf(process.env.THREADS),
    proxies: Number(process.env.PROXIES ?? 0),
    log: pino({ level: process.env.LOG_LEVEL ?? "info" }, pino.destination(2)),
  });
  console.log(`Ledgerline is open at ${server.url}`);
  for (const signal of ["SIGINT", "SIGTERM"] as const) {
    process.once(signal, () => {
      void server.close().then(() => process.exit(0));
    });
  }
} catch (error) {
  if (!(error instanceof Problem)) throw error;
  console.error(describeProblem(error));
  process.exitCode = 1;
}
