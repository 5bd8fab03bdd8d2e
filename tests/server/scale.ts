/**
 * A generated corpus, sent through the API to a real server, and what it costs: used by a report at full size and by a
 * benchmark at a small one. Rates are given for each second of processor time, which a busy machine does not change
 * much, and by the clock.
 */
import { type ChildProcess, spawn } from "node:child_process";
import { readdirSync, readFileSync } from "node:fs";
import { connect } from "node:net";
import { zipSync } from "fflate";
import { generateTake } from "../../corpus/generator/generate-take.ts";
import { randomSpec } from "../../corpus/generator/random-spec.ts";
import { analyse } from "../../src/analyse.ts";
import { chartText } from "../../src/chart/index.ts";
import { argumentsOf, ended, startProcess } from "./processes.ts";

/** Choruses beyond what the generator's own specification has, so that a take has about 600 notes. */
const LONGER = 2.7;
/** Takes of one upload. */
const PART = 500;
const PLAYERS = 40;

export interface CorpusPart {
  readonly zip: Uint8Array;
  readonly takes: number;
}

interface Entry {
  readonly file: string;
  readonly bytes: Uint8Array;
  readonly chart: string;
}

/** Take number `seed`; the same on every machine. */
export function generatedTake(seed: number): Entry {
  const spec = randomSpec(seed);
  const { bytes } = generateTake(seed, { ...spec, choruses: Math.round(spec.choruses * LONGER) });
  return { file: `${seed}.mid`, bytes, chart: chartText(spec.chart) };
}

/** Zips with a manifest in JSON: the takes 1 to `takes`, dated over four decades, of forty players. */
export function generatedCorpus(takes: number): CorpusPart[] {
  const parts: CorpusPart[] = [];
  for (let first = 1; first <= takes; first += PART) {
    const entries = Array.from({ length: Math.min(PART, takes - first + 1) }, (_, i) =>
      generatedTake(first + i),
    );
    const manifest = entries.map(({ file, chart }, i) => ({
      file,
      chart,
      player: `Player ${1 + ((first + i) % PLAYERS)}`,
      date: `${1985 + ((first + i) % 40)}-03-01`,
      tags: [(first + i) % 2 === 0 ? "even" : "odd", `term ${1 + ((first + i) % 6)}`],
    }));
    const zip = zipSync(
      {
        "manifest.json": Buffer.from(JSON.stringify(manifest)),
        ...Object.fromEntries(entries.map(({ file, bytes }) => [file, bytes])),
      },
      { level: 6 },
    );
    parts.push({ zip, takes: entries.length });
  }
  return parts;
}

export interface Rate {
  readonly takes: number;
  readonly notes: number;
  /** By the clock. */
  readonly seconds: number;
  /** Of processors, all processes together. */
  readonly processorSeconds: number;
}

/** The analysis alone, in this process: the floor that the way through the queue is held against. */
export function bareRate(takes: number): Rate {
  const entries = Array.from({ length: takes }, (_, i) => generatedTake(i + 1));
  for (const { bytes, chart } of entries.slice(0, 5)) analyse(bytes, chart, {});
  const cpu = process.cpuUsage();
  const began = performance.now();
  let notes = 0;
  for (const { bytes, chart } of entries) notes += analyse(bytes, chart, {}).notes.length;
  const { user, system } = process.cpuUsage(cpu);
  return {
    takes,
    notes,
    seconds: (performance.now() - began) / 1000,
    processorSeconds: (user + system) / 1e6,
  };
}

export interface Question {
  readonly name: string;
  /** By the clock. */
  readonly milliseconds: readonly number[];
  /** Of processors, all processes together; Linux counts in steps of ten. */
  readonly processorMs: readonly number[];
}

export interface CorpusRun {
  readonly queue: Rate;
  /** Each asked some times, the first one first. */
  readonly questions: readonly Question[];
  readonly tables: readonly {
    readonly format: string;
    readonly rows: number;
    readonly bytes: number;
    readonly seconds: number;
    readonly processorSeconds: number;
  }[];
  /** Largest resident memory of the server's process, bytes. */
  readonly peakMemory: number;
}

export interface RunPlan {
  readonly parts: readonly CorpusPart[];
  readonly workers: number;
  /** Empty for the embedded store, in which the server works on jobs itself. */
  readonly databaseUrl: string;
  readonly dataDir: string;
  /** Process of the PostgreSQL server, whose processor time counts too. */
  readonly postgres: number | null;
  readonly log: (line: string) => void;
}

export async function runCorpus(plan: RunPlan): Promise<CorpusRun> {
  const env = {
    ...process.env,
    DATA_DIR: plan.dataDir,
    DATABASE_URL: plan.databaseUrl,
    PORT: "0",
    DEMO: "off",
    LOG_LEVEL: "warn",
    WORKER: plan.databaseUrl === "" ? "on" : "off",
    THREADS: "1",
  };
  // The server writes tables in as many threads as it has by default here; each worker process analyses in one.
  const server = await startProcess("server/main.ts", { ...env, THREADS: String(plan.workers) });
  const workers: ChildProcess[] =
    plan.databaseUrl === ""
      ? []
      : Array.from({ length: plan.workers }, () =>
          spawn("node", argumentsOf("server/worker.ts"), {
            env,
            stdio: ["ignore", "ignore", "inherit"],
          }),
        );
  const processes = [server.process.pid!, ...workers.map((worker) => worker.pid!)];
  const used = () => {
    const database = plan.postgres === null ? [] : familyOf(plan.postgres);
    return [...processes, ...database].reduce((sum, pid) => sum + processorSeconds(pid), 0);
  };
  const api = `${server.url}/api`;
  try {
    const corpus = await post(`${api}/corpora`, { name: "Generated" });
    const queue = await fill(api, corpus.id, plan, used);
    const questions: Question[] = [];
    for (const [name, ask] of questionsOf(api, corpus.id)) {
      const milliseconds: number[] = [];
      const processorMs: number[] = [];
      for (let i = 0; i < 5; i++) {
        const before = used();
        const began = performance.now();
        await ask();
        milliseconds.push(performance.now() - began);
        processorMs.push(1000 * (used() - before));
      }
      questions.push({ name, milliseconds, processorMs });
      const list = (all: readonly number[]) => all.map((ms) => Math.round(ms)).join(", ");
      plan.log(`${name}: ${list(milliseconds)} ms, of processors ${list(processorMs)}`);
    }
    const tables = [];
    for (const format of ["csv", "ndjson", "parquet"]) {
      const table = await download(`${api}/corpora/${corpus.id}/notes?format=${format}`, used);
      tables.push({ format, ...table, rows: queue.notes });
      plan.log(
        `${format}: ${table.bytes} bytes in ${table.seconds.toFixed(1)} s, peak memory ${Math.round(peakMemory(server.process.pid!) / 2 ** 20)} MB`,
      );
    }
    return { queue, questions, tables, peakMemory: peakMemory(server.process.pid!) };
  } finally {
    for (const child of [server.process, ...workers]) child.kill("SIGTERM");
    await Promise.all([server.process, ...workers].map(ended));
  }
}

async function fill(api: string, corpus: string, plan: RunPlan, used: () => number): Promise<Rate> {
  const before = used();
  const began = performance.now();
  const jobs: string[] = [];
  for (const { zip } of plan.parts) {
    const form = new FormData();
    form.append("file", new Blob([zip as BlobPart]), "part.zip");
    const response = await fetch(`${api}/corpora/${corpus}/takes`, { method: "POST", body: form });
    if (response.status !== 202) throw new Error(await response.text());
    jobs.push((await response.json()).id);
  }
  const total = plan.parts.reduce((sum, part) => sum + part.takes, 0);
  plan.log(`${total} takes sent in ${((performance.now() - began) / 1000).toFixed(1)} s`);
  let told = performance.now();
  // Asking costs the service something too, so only for the job that is under way: they are done in their order.
  for (const [i, job] of jobs.entries()) {
    for (;;) {
      const state = await get(`${api}/jobs/${job}`);
      if (state.state === "done") break;
      if (performance.now() - told > 60_000) {
        told = performance.now();
        plan.log(`${i * PART + state.done} of ${total} takes after ${Math.round((told - began) / 1000)} s`);
      }
      await new Promise((done) => setTimeout(done, 500));
    }
  }
  const seconds = (performance.now() - began) / 1000;
  const processorSeconds = used() - before;
  const { failures } = await get(`${api}/corpora/${corpus}/failures`);
  if (failures.length > 0) throw new Error(`${failures.length} takes failed: ${failures[0].message}`);
  // Every note, of the solo or not, is a row of the table.
  const { takes } = await get(`${api}/corpora/${corpus}/summary`);
  if (takes !== total) throw new Error(`${takes} takes in place of ${total}`);
  const notes = await rowsOf(`${api}/corpora/${corpus}/notes?format=csv`);
  return { takes: total, notes, seconds, processorSeconds };
}

function questionsOf(api: string, corpus: string): [string, () => Promise<unknown>][] {
  const at = `${api}/corpora/${corpus}`;
  const search = (body: unknown) => () => post(`${at}/search`, body);
  return [
    ["summary", () => get(`${at}/summary`)],
    ...["player", "tag", "chord", "tempo", "decade"].map((by): [string, () => Promise<unknown>] => [
      `summary by ${by}`,
      () => get(`${at}/summary?by=${by}`),
    ]),
    ["summary of one player by chord", () => get(`${at}/summary?player=Player%201&by=chord`)],
    ["search, five intervals", search({ symbols: [4, 3, 3, -2, -1] })],
    ["search, three intervals", search({ symbols: [3, 2, 1] })],
    ["search, one edit", search({ symbols: [4, 3, 3, -2, -1], maxEdits: 1 })],
    ["search, a short one with one edit", search({ symbols: [2, 1, 2], maxEdits: 1 })],
    ["search, two edits", search({ symbols: [2, 1, 2, 2, 1, 2], maxEdits: 2 })],
    ["search, degrees", search({ viewpoint: "degree", symbols: ["1", "3", "5", "b7"] })],
    ["search, one player", search({ symbols: [3, 2, 1], filter: { player: "Player 2" } })],
    ["vocabulary", () => get(`${at}/vocabulary?limit=100`)],
    ["citation", () => get(`${at}/citation`)],
  ];
}

async function download(url: string, used: () => number) {
  const before = used();
  const began = performance.now();
  const bytes = await drain(url);
  return { bytes, seconds: (performance.now() - began) / 1000, processorSeconds: used() - before };
}

/**
 * Reads a table to its end and keeps nothing of it, so that the server is measured and not a client: the usual ones
 * take as much of the processors to read a table as the server takes to write it.
 *
 * @returns bytes that came
 */
function drain(url: string): Promise<number> {
  const { hostname, port, pathname, search } = new URL(url);
  return new Promise((done, failed) => {
    let bytes = 0;
    let last = "";
    const callback = (count: number, buffer: Uint8Array) => {
      bytes += count;
      last = (last + Buffer.from(buffer.subarray(Math.max(0, count - 64), count)).toString("latin1")).slice(
        -64,
      );
      return true;
    };
    connect({ host: hostname, port: Number(port), onread: { buffer: Buffer.alloc(2 ** 20), callback } })
      .on("error", failed)
      // Only a whole table has the trailer.
      .on("close", () =>
        /x-rows: \d+\r\n\r\n$/i.test(last) ? done(bytes) : failed(new Error(`${url} broke off`)),
      )
      .write(`GET ${pathname}${search} HTTP/1.1\r\nHost: ${hostname}:${port}\r\nConnection: close\r\n\r\n`);
  });
}

/** Rows of a CSV table without its heading; no cell of the table of notes holds a line end. */
async function rowsOf(url: string): Promise<number> {
  const response = await fetch(url);
  let lines = 0;
  for await (const part of response.body!) for (const byte of part) if (byte === 10) lines++;
  return lines - 1;
}

async function get(url: string) {
  const response = await fetch(url);
  if (!response.ok) throw new Error(`${url}: ${await response.text()}`);
  return response.json();
}

async function post(url: string, body: unknown) {
  const response = await fetch(url, {
    method: "POST",
    headers: { "content-type": "application/json" },
    body: JSON.stringify(body),
  });
  if (!response.ok) throw new Error(`${url}: ${await response.text()}`);
  return response.json();
}

/** Processor time of a process and of its children that have ended, as proc(5) gives it in clock ticks of 10 ms. */
function processorSeconds(pid: number): number {
  try {
    const fields = readFileSync(`/proc/${pid}/stat`, "utf8")
      .replace(/^.*\) /, "")
      .split(" ");
    return fields.slice(11, 15).reduce((sum, ticks) => sum + Number(ticks), 0) / 100;
  } catch {
    return 0;
  }
}

function peakMemory(pid: number): number {
  const status = readFileSync(`/proc/${pid}/status`, "utf8");
  return 1024 * Number(/VmHWM:\s+(\d+)/.exec(status)![1]);
}

/** A process and its living children. */
function familyOf(pid: number): number[] {
  const children = readdirSync("/proc").filter((name) => {
    if (!/^\d+$/.test(name)) return false;
    try {
      return (
        readFileSync(`/proc/${name}/stat`, "utf8")
          .replace(/^.*\) /, "")
          .split(" ")[1] === String(pid)
      );
    } catch {
      return false;
    }
  });
  return [pid, ...children.map(Number)];
}
