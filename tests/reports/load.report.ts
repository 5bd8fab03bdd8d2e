/**
 * `npm run report -- load [FILES]`: how soon `/health` answers while much arrives (128 MB; a zip of FILES files, 20,000
 * by default), what two hundred readers wait for, and the most memory that the server takes.
 */
import { createReadStream, mkdtempSync, rmSync, statSync, writeFileSync } from "node:fs";
import { request } from "node:http";
import { loadavg, tmpdir } from "node:os";
import { join } from "node:path";
import autocannon from "autocannon";
import { zipSync } from "fflate";
import { FOUR_BARS, smallMidi } from "../server/harness.ts";
import { postgresIsInstalled, startPostgres } from "../server/postgres.ts";
import { ended, startProcess } from "../server/processes.ts";
import { watchWhile } from "./watch-process.ts";

const READERS = 200;
const READ_SECONDS = 15;

export async function report(args: string[]): Promise<void> {
  const files = Number(args[0] ?? 20_000);
  if (!Number.isInteger(files) || files < 1) {
    console.error(`Not a number of files: ${args[0]}. Say how many are sent: npm run report -- load 20000`);
    process.exitCode = 2;
    return;
  }
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
  const env = {
    DATA_DIR: join(folder, "data"),
    DATABASE_URL: databaseUrl,
    PORT: "0",
    LOG_LEVEL: "error",
    // As the files of server/operate set it.
    MALLOC_ARENA_MAX: process.env.MALLOC_ARENA_MAX ?? "2",
  };
  const server = await startProcess("server/main.ts", { ...process.env, ...env, WORKER: "off" }, "inherit");
  const api = `${server.url}/api`;
  const during = async (name: string, work: () => Promise<unknown>) => {
    const { seconds, answers, worked, waited, peakMb } = await watchWhile(server.process.pid!, api, work);
    const at = (share: number) => answers[Math.min(answers.length - 1, Math.floor(share * answers.length))]!;
    const slowest = at(1);
    console.log(
      `  ${name}: ${seconds.toFixed(1)} s; /health ${ms(at(0.5).took)} at the median, ${ms(at(0.99).took)} at 99 percent, ${ms(slowest.took)} at most (bound 100 ms), ${answers.length} times`,
    );
    console.log(
      `    in the slowest the thread that answers worked ${ms(slowest.worked)} and waited ${ms(slowest.waited)} for a processor, and the asker ${ms(slowest.askerWaited)}; in all it worked ${percent(worked)} of the time and waited ${percent(waited)}; most memory ${peakMb} MB (bound 600)`,
    );
  };
  try {
    const id = await newCorpus(api);
    await during("at rest", () => new Promise((done) => setTimeout(done, 3000)));
    const large = join(folder, "large.zip");
    writeFileSync(
      large,
      zipSync(Object.fromEntries([0, 1, 2, 3].map((n) => [`${n}.mid`, noise(31 * 2 ** 20, n)])), {
        level: 0,
      }),
    );
    await during(`${Math.round(statSync(large).size / 2 ** 20)} MB in one zip`, () => send(api, id, large));
    const many = join(folder, "many.zip");
    writeFileSync(many, zipOf(files));
    await during(`${files} files in one zip`, () => send(api, id, many));
    await during(`${READERS} readers of an account`, async () => {
      const read = await autocannon({
        url: `${api}/takes/maren-quick-change/analysis`,
        connections: READERS,
        duration: READ_SECONDS,
        // In a thread of its own: whoever asks for /health must not be busy reading what the others get.
        workers: 1,
      });
      console.log(
        `  ${READERS} readers of an account: ${read.requests.average.toFixed(0)} answers a second, ${read.latency.p50} ms at the median, ${read.latency.p99} at 99 percent; ${read.timeouts} time-outs (bound 0), ${read.errors} errors, ${read.non2xx} refused`,
      );
    });
    console.log(`  load of the machine meanwhile: ${loadavg()[0]!.toFixed(1)}`);
  } finally {
    server.process.kill("SIGTERM");
    await ended(server.process);
    rmSync(folder, { recursive: true, force: true });
  }
}

function ms(n: number): string {
  return `${n.toFixed(0)} ms`;
}

function percent(share: number): string {
  return `${(100 * share).toFixed(0)} %`;
}

/** Files of three notes each, no two alike. */
function zipOf(files: number): Uint8Array {
  return zipSync(
    Object.fromEntries(
      Array.from({ length: files }, (_, n) => [
        `${n}.mid`,
        smallMidi([40 + (n % 50), 40 + (Math.floor(n / 50) % 50), 40 + (Math.floor(n / 2500) % 50)]),
      ]),
    ),
    { level: 1 },
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

/** From disk, a piece at a time: whoever sends all at once is busy itself, and asks late. */
function send(api: string, corpus: string, zip: string): Promise<void> {
  const boundary = "the-end-of-a-part";
  const part = (more: string) => `--${boundary}\r\nContent-Disposition: form-data; ${more}\r\n\r\n`;
  const head = `${part('name="chart"')}${FOUR_BARS}\r\n${part('name="file"; filename="load.zip"')}`;
  const foot = `\r\n--${boundary}--\r\n`;
  const length = Buffer.byteLength(head) + statSync(zip).size + foot.length;
  const headers = { "content-type": `multipart/form-data; boundary=${boundary}`, "content-length": length };
  return new Promise((done, failed) => {
    const sending = request(
      `${api}/corpora/${corpus}/takes`,
      { method: "POST", headers, agent: false },
      (response) => {
        let text = "";
        response.setEncoding("utf8").on("data", (more: string) => {
          text += more;
        });
        response.once("end", () =>
          response.statusCode === 202
            ? done()
            : failed(new Error(`${response.statusCode}: ${text.slice(0, 300)}`)),
        );
      },
    ).on("error", failed);
    sending.write(head);
    createReadStream(zip)
      .once("error", failed)
      .once("end", () => sending.end(foot))
      .pipe(sending, { end: false });
  });
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
