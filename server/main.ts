/** `npm start`. HOST, PORT, DATA_DIR, DATABASE_URL, DATABASE_WAIT, CORPUS_DIR, THREADS, PROXIES, KEEP_DAYS, AUDIT_DAYS, QUOTA_TAKES, QUOTA_MB, DEMO=off and WORKER=off may be set. */
import { resolve } from "node:path";
import { threadsOf } from "./analysis/threads.ts";
import {
  auditDaysOf,
  databaseWaitOf,
  folderOf,
  keepDaysOf,
  logOf,
  orOneLine,
  portOf,
  proxiesOf,
  quotaOf,
} from "./settings.ts";

await orOneLine(async () => {
  const options = {
    host: process.env.HOST ?? "127.0.0.1",
    port: portOf(process.env.PORT),
    dataDir: resolve(process.env.DATA_DIR ?? "data"),
    databaseUrl: process.env.DATABASE_URL,
    databaseWait: databaseWaitOf(process.env.DATABASE_WAIT),
    corpusDir: folderOf(process.env.CORPUS_DIR),
    auditDays: auditDaysOf(process.env.AUDIT_DAYS),
    quota: quotaOf(process.env.QUOTA_TAKES, process.env.QUOTA_MB),
    keepDays: keepDaysOf(process.env.KEEP_DAYS),
    demo: process.env.DEMO !== "off",
    worker: process.env.WORKER !== "off",
    threads: threadsOf(process.env.THREADS),
    proxies: proxiesOf(process.env.PROXIES),
    log: logOf(process.env.LOG_LEVEL),
  };
  // Read only now: settings that cannot be are answered at once, before everything else is loaded.
  const { startServer } = await import("./start.ts");
  const server = await startServer(options);
  console.log(`Ledgerline is open at ${server.url}`);
  for (const signal of ["SIGINT", "SIGTERM"] as const) {
    process.once(signal, () => {
      void server.close().then(() => process.exit(0));
    });
  }
});
