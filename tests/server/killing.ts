/**
 * Kills processes at random moments while a corpus is analysed, and says what was lost or done twice. Used by a test
 * with a few kills and by a report with many.
 */
import { type ChildProcess, spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { openDatabase } from "../../server/store/database.ts";
import { chanceFrom } from "../../src/statistics/chance.ts";
import { ARPEGGIOS, FOUR_BARS, smallMidi } from "./harness.ts";
import type { Postgres } from "./postgres.ts";
import { argumentsOf, ended, startProcess } from "./processes.ts";

export interface KillOutcome {
  readonly kills: number;
  readonly items: number;
  readonly takes: number;
  readonly done: number;
  readonly failed: number;
  readonly waiting: number;
  readonly accounts: number;
  readonly lines: number;
}

interface Plan {
  readonly takes: number;
  readonly kills: number;
  readonly seed: number;
  /** With a PostgreSQL server, workers are processes of their own and are killed too, and so is the server. */
  readonly postgres: Postgres | null;
  readonly log?: (line: string) => void;
}

export async function killAtRandom(plan: Plan): Promise<KillOutcome> {
  const folder = mkdtempSync(join(tmpdir(), "ledgerline-kill-"));
  const chance = chanceFrom(plan.seed);
  const databaseUrl = plan.postgres === null ? "" : await plan.postgres.database();
  const env = {
    ...process.env,
    DATA_DIR: join(folder, "data"),
    DATABASE_URL: databaseUrl,
    PORT: "0",
    DEMO: "off",
    LOG_LEVEL: "silent",
    // Killed workers' messages come back within seconds here, not minutes.
    QUEUE_EXPIRE_SECONDS: "5",
    WORKER: plan.postgres === null ? "on" : "off",
  };
  let server = await startProcess("server/main.ts", env);
  let workers = plan.postgres === null ? [] : await startWorkers(env, 2);
  try {
    const corpus = await post(server.url, "/corpora", { name: "killed" });
    const form = new FormData();
    form.append("chart", FOUR_BARS);
    for (let n = 0; n < plan.takes; n++)
      form.append("file", new Blob([takeNumber(n) as BlobPart]), `${n}.mid`);
    const response = await fetch(`${server.url}/api/corpora/${corpus.id}/takes`, {
      method: "POST",
      body: form,
    });
    const job = await response.json();
    let kills = 0;
    for (;;) {
      const state = await fetch(`${server.url}/api/jobs/${job.id}`)
        .then((answer) => answer.json())
        .catch(() => null);
      if (state?.state === "done" && kills >= Math.min(plan.kills, 1)) break;
      if (state?.state === "done" || kills >= plan.kills) {
        if (state?.state === "done") break;
        await pause(200);
        continue;
      }
      await pause(300 + chance() * 1500);
      const victim = plan.postgres === null ? 0 : Math.floor(chance() * 3);
      kills++;
      plan.log?.(`kill ${kills}: ${["server", "a worker", "the database"][victim]}`);
      if (victim === 0) {
        server.process.kill("SIGKILL");
        await ended(server.process);
        server = await startProcess("server/main.ts", env);
      } else if (victim === 1) {
        workers[0]!.kill("SIGKILL");
        workers = [...workers.slice(1), ...(await startWorkers(env, 1))];
      } else await plan.postgres!.crash();
    }
    return await outcome(server.url, env, kills, async () => {
      server.process.kill("SIGTERM");
      for (const worker of workers) worker.kill("SIGTERM");
      await Promise.all([server.process, ...workers].map(ended));
    });
  } finally {
    server.process.kill("SIGKILL");
    for (const worker of workers) worker.kill("SIGKILL");
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Counts what the store holds, once nobody works on it any more. */
async function outcome(
  _url: string,
  env: Readonly<Record<string, string | undefined>>,
  kills: number,
  stop: () => Promise<void>,
): Promise<KillOutcome> {
  await stop();
  const database = await openDatabase({ url: env.DATABASE_URL, folder: env.DATA_DIR! });
  const [row] = await database.query<Omit<KillOutcome, "kills">>(
    `select (select count(*)::int from items) as items, (select count(*)::int from takes) as takes,
       (select count(*)::int from items where state = 'done') as done,
       (select count(*)::int from items where state = 'failed') as failed,
       (select count(*)::int from items where state = 'waiting') as waiting,
       (select count(*)::int from analyses) as accounts, (select count(*)::int from lines) as lines`,
  );
  await database.close();
  return { kills, ...row! };
}

/** Another melody for each number, so that every take has an account of its own. */
function takeNumber(n: number): Uint8Array {
  return smallMidi(ARPEGGIOS.map((pitch, i) => pitch - 12 + ((n >> (i % 10)) & 1) + (n % 7)));
}

async function startWorkers(
  env: Readonly<Record<string, string | undefined>>,
  n: number,
): Promise<ChildProcess[]> {
  return Array.from({ length: n }, () =>
    spawn("node", argumentsOf("server/worker.ts"), { env, stdio: "ignore" }),
  );
}

async function post(url: string, path: string, body: unknown) {
  const response = await fetch(`${url}/api${path}`, {
    method: "POST",
    headers: { "content-type": "application/json" },
    body: JSON.stringify(body),
  });
  return response.json();
}

function pause(ms: number): Promise<void> {
  return new Promise((done) => setTimeout(done, ms));
}
