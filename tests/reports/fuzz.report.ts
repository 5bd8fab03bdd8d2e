/**
 * `npm run report -- fuzz [REQUESTS] [SEED]`: requests made from the published document, most of them wrong in some
 * way, to a server of its own on each store: what it answered, and whether it is still the same process.
 */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fuzz } from "../server/fuzz/run.ts";
import { postgresIsInstalled, startPostgres } from "../server/postgres.ts";
import { ended, startProcess } from "../server/processes.ts";

const AT_ONCE = 4;

export async function report(args: string[]): Promise<void> {
  const requests = Number(args[0] ?? 5000);
  const seed = Number(args[1] ?? 1);
  await on("embedded store", requests, seed, "");
  if (!postgresIsInstalled()) {
    console.log("PostgreSQL is not installed here: the second half is skipped");
    return;
  }
  const postgres = await startPostgres();
  try {
    await on("PostgreSQL", requests, seed + 1, await postgres.database());
  } finally {
    postgres.stop();
  }
}

async function on(store: string, requests: number, seed: number, databaseUrl: string): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), "ledgerline-fuzz-"));
  const env = { DATA_DIR: join(folder, "data"), DATABASE_URL: databaseUrl, PORT: "0", LOG_LEVEL: "error" };
  const server = await startProcess(
    "server/main.ts",
    { ...process.env, ...env, CORPUS_DIR: folder },
    "inherit",
  );
  try {
    const log = (line: string) => console.log(`  ${line}`);
    const outcome = await fuzz({ url: server.url, seed, requests, atOnce: AT_ONCE, log });
    const healthy = (await fetch(`${server.url}/api/health`)).status === 200;
    console.log(`${store}: ${requests} requests to ${outcome.operations} operations, seed ${seed}`);
    console.log(`  answers by status: ${JSON.stringify(outcome.statuses)}`);
    console.log(`  ${outcome.faults.length} with 500 or more`);
    for (const { turn, request, answer } of outcome.faults.slice(0, 20)) {
      console.log(`  turn ${turn}: ${request}\n    ${answer}`);
    }
    console.log(
      `  slowest answer: ${outcome.slowest.seconds.toFixed(1)} s, ${outcome.slowest.request.slice(0, 300)}`,
    );
    console.log(
      `  the same process ${server.process.exitCode === null && healthy ? "answers still" : "has ended"}`,
    );
  } finally {
    server.process.kill("SIGTERM");
    await ended(server.process);
    rmSync(folder, { recursive: true, force: true });
  }
}
