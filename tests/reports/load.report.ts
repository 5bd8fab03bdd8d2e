/**
 * `npm run report -- load [FILES]`: how soon `/health` answers while much arrives (128 MB; a zip of FILES files, 20,000
 * by default), what two hundred readers wait for, and the most memory that the server takes.
 */
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { loadavg, tmpdir } from "node:os";
import { join } from "node:path";
import autocannon from "autocannon";
import { zipSync } from "fflate";
import { FOUR_BARS, smallMidi } from "../server/harness.ts";
import { postgresIsInstalled, startPostgres } from "../server/postgres.ts";
import { ended, startProcess } from "../server/processes.ts";

const HEALTH_EVERY_MS = 20;
const READERS = 200;
const READ_SECONDS = 15;

export async function report(args: string[]): Promise<void> {
  const files = Number(args[0] ?? 20_000);
  console.log(`load of the machine before: ${loadavg()[0]!.toFixed(1)}`);
  await on("embedded store", files, "");
  if (!postgresIsInstalled()) {
    console.log("PostgreSQL is not installed here: the second half is skipped");
    return;
  }
  const postgres = await startPostgres();
  try {
    await on("PostgreSQL", files, await postgres.database());
  } finally {
    postgres.stop();
  }
}

async function on(store: string, files: number, databaseUrl: string): Promise<void> {
  console.log(store);
  const folder = mkdtempSync(join(tmpdir(), "ledgerline-load-"));
  // What arrives is measured, and not the analysis of it, which another process may do.
  const env = { DATA_DIR: join(folder, "data"), DATABASE_URL: databaseUrl, PORT: "0", LOG_LEVEL: "error" };
  const server = await startProcess("server/main.ts", { ...process.env, ...env, WORKER: "off" }, "inherit");
  const api = `${server.url}/api`;
  try {
    const id = await newCorpus(api);
    await during("at rest", api, () => new Promise((done) => setTimeout(done, 3000)));
    const large = zipSync(Object.fromEntries([0, 1, 2, 3].map((n) => [`${n}.mid`, noise(31 * 2 ** 20, n)])), {
      level: 0,
    });
    await during(`${Math.round(large.length / 2 ** 20)} MB in one zip`, api, () => send(api, id, large));
    const many = zipSync(
      Object.fromEntries(
        Array.from({ length: files }, (_, n) => [
          `${n}.mid`,
          smallMidi([40 + (n % 50), 40 + (Math.floor(n / 50) % 50), 40 + (Math.floor(n / 2500) % 50)]),
        ]),
      ),
      { level: 1 },
    );
    await during(`${files} files in one zip`, api, () => send(api, id, many));
    const read = await autocannon({
      url: `${api}/takes/maren-quick-change/analysis`,
      connections: READERS,
      duration: READ_SECONDS,
    });
    console.log(
      `  ${READERS} readers of an account: ${read.requests.average.toFixed(0)} answers a second, ${read.latency.p50} ms at the median, ${read.latency.p99} at 99 percent; ${read.timeouts} time-outs, ${read.errors} errors, ${read.non2xx} refused`,
    );
    console.log(`  most memory of the server: ${peakMemory(server.process.pid!)} MB (bound 600)`);
    console.log(`  load of the machine meanwhile: ${loadavg()[0]!.toFixed(1)}`);
  } finally {
    server.process.kill("SIGTERM");
    await ended(server.process);
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Asks for `/health` all the while that something is done. */
async function during(name: string, api: string, work: () => Promise<unknown>): Promise<void> {
  let done = false;
  const began = performance.now();
  const working = work().finally(() => {
    done = true;
  });
  const waits: number[] = [];
  while (!done) {
    const asked = performance.now();
    const response = await fetch(`${api}/health`);
    await response.arrayBuffer();
    waits.push(performance.now() - asked);
    await new Promise((go) => setTimeout(go, HEALTH_EVERY_MS));
  }
  await working;
  waits.sort((a, b) => a - b);
  const at = (share: number) =>
    waits[Math.min(waits.length - 1, Math.floor(share * waits.length))]!.toFixed(0);
  console.log(
    `  ${name}: ${((performance.now() - began) / 1000).toFixed(1)} s; /health ${at(0.5)} ms at the median, ${at(0.99)} at 99 percent, ${at(1)} at most (bound 100), ${waits.length} times`,
  );
}

async function newCorpus(api: string): Promise<string> {
  const response = await fetch(`${api}/corpora`, {
    method: "POST",
    headers: { "content-type": "application/json" },
    body: '{"name":"Load"}',
  });
  return (await response.json()).id;
}

async function send(api: string, corpus: string, zip: Uint8Array): Promise<void> {
  const form = new FormData();
  form.append("chart", FOUR_BARS);
  form.append("file", new Blob([zip as BlobPart]), "load.zip");
  const response = await fetch(`${api}/corpora/${corpus}/takes`, { method: "POST", body: form });
  const text = await response.text();
  if (response.status !== 202) throw new Error(`${response.status}: ${text.slice(0, 300)}`);
}

/** Bytes that no packing makes smaller; the same for a seed. */
function noise(size: number, seed: number): Uint8Array {
  const words = new Uint32Array(size / 4);
  let state = seed + 1;
  for (let i = 0; i < words.length; i++) {
    // xorshift32 (Marsaglia 2003).
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    words[i] = state;
  }
  return new Uint8Array(words.buffer);
}

/** In MB, as proc(5) tells the greatest resident size so far. */
function peakMemory(pid: number): number {
  return Math.round(Number(/VmHWM:\s+(\d+)/.exec(readFileSync(`/proc/${pid}/status`, "utf8"))![1]) / 1024);
}
