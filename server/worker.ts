/** `npm run worker`: works on jobs of a PostgreSQL server; as many as wanted, on as many machines as wanted. */
import { createAnalyst } from "./analysis/analyst.ts";
import { threadsOf } from "./analysis/threads.ts";
import { openQueue } from "./jobs/queue.ts";
import { startWorker } from "./jobs/work.ts";
import { createListener } from "./listen/listener.ts";
import { databaseWaitOf, logOf, orOneLine } from "./settings.ts";
import { openDatabase } from "./store/database.ts";
import { migrate } from "./store/migrations.ts";
import { tellAlive } from "./store/workers.ts";

const url = process.env.DATABASE_URL;
if (url === undefined || url === "") {
  console.error(
    "A worker of its own needs a PostgreSQL server: set DATABASE_URL. With the embedded store, npm start works on jobs itself.",
  );
  process.exitCode = 2;
} else {
  await orOneLine(async () => {
    const log = logOf(process.env.LOG_LEVEL);
    const database = await openDatabase({
      url,
      waitSeconds: databaseWaitOf(process.env.DATABASE_WAIT),
      tell: (reason) => log.warn({ reason }, "the PostgreSQL server does not answer; it is waited for"),
    });
    await migrate(database);
    const queue = await openQueue(database, (error) => log.warn({ err: error }, "queue"));
    const threads = threadsOf(process.env.THREADS);
    const analyst = createAnalyst(threads);
    const listener = createListener();
    const worker = startWorker({ database, analyst, listener, log }, queue, threads);
    const stopTelling = await tellAlive(database, worker.alive);
    for (const signal of ["SIGINT", "SIGTERM"] as const) {
      process.once(signal, async () => {
        await stopTelling();
        await worker.stop();
        await queue.close();
        await listener.close();
        await analyst.close();
        await database.close();
        process.exit(0);
      });
    }
    // Said when it can be ended too: whoever waits for this line may do so at once.
    console.log("Ledgerline worker is waiting for jobs");
  });
}
