/**
 * `npm run report -- growth [TAKES] [COPIES]`: what a store of many takes weighs and how its questions grow. TAKES
 * generated takes are analysed by a server on PostgreSQL; their rows are then copied COPIES times, and four times
 * that, as takes of their own, and the same questions asked of both. What a take weighs and how time grows are
 * carried on to ten million takes.
 */
import pg from "pg";
import { postgresIsInstalled, startPostgres } from "../server/postgres.ts";
import { ended, startProcess } from "../server/processes.ts";
import { generatedCorpus } from "../server/scale.ts";

const GOAL = 10_000_000;
const TABLES = ["sources", "takes", "items", "analyses", "tallies", "ideas_found", "lines", "blocks"];

export async function report(args: string[]): Promise<void> {
  if (!postgresIsInstalled()) {
    console.log("PostgreSQL is not installed here");
    return;
  }
  const takes = Number(args[0] ?? 30);
  const copies = Number(args[1] ?? 30);
  const postgres = await startPostgres();
  const url = await postgres.database();
  const env = { ...process.env, DATABASE_URL: url, PORT: "0", DEMO: "off", LOG_LEVEL: "error" };
  const server = await startProcess("server/main.ts", env);
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  try {
    const corpus = await analysed(server.url, takes);
    let have = 1;
    const sizes: Measured[] = [];
    for (const times of [copies, 4 * copies]) {
      await copyRows(client, have, times);
      have = times;
      await client.query("vacuum analyze");
      sizes.push(await measure(client, server.url, corpus, takes * times));
    }
    print(sizes[0]!, sizes[1]!);
  } finally {
    await client.end();
    server.process.kill("SIGTERM");
    await ended(server.process);
    postgres.stop();
  }
}

async function analysed(url: string, takes: number): Promise<string> {
  const ask = async (path: string, init?: RequestInit) => (await fetch(`${url}/api${path}`, init)).json();
  const headers = { "content-type": "application/json" };
  const corpus = (await ask("/corpora", { method: "POST", headers, body: '{"name":"Growth"}' })).id;
  const form = new FormData();
  form.append("file", new Blob([generatedCorpus(takes)[0]!.zip as BlobPart]), "takes.zip");
  const job = (await ask(`/corpora/${corpus}/takes`, { method: "POST", body: form })).id;
  for (;;) {
    const { state } = await ask(`/jobs/${job}`);
    if (state === "done") return corpus;
    await new Promise((done) => setTimeout(done, 500));
  }
}

/** Copies the rows of the takes that were analysed, under keys of their own, from copy `from` to before copy `to`. */
async function copyRows(client: pg.Client, from: number, to: number): Promise<void> {
  const n = `generate_series(${from}, ${to - 1}) as n`;
  const first = "where key not like '%/%'";
  for (const sql of [
    `insert into sources (sha256, bytes) select sha256 || '/' || n, bytes from sources, ${n} where sha256 not like '%/%'`,
    `insert into analyses (key, version, facts, account) select key || '/' || n, version, facts, account from analyses, ${n} ${first}`,
    `insert into tallies select key || '/' || n, chord, role, line_role, notes from tallies, ${n} ${first}`,
    `insert into ideas_found select key || '/' || n, viewpoint, pattern, length, occurrences from ideas_found, ${n} ${first}`,
    `insert into lines (key, line, packed) select key || '/' || n, line, packed from lines, ${n} ${first}`,
    `insert into blocks (key, name, block) select key || '/' || n, name, block from blocks, ${n} ${first}`,
    `insert into takes (id, source, file_name, player_id, title, played_on, chart_text, options, tags, analysis, corpus_id)
     select id || '/' || n, source || '/' || n, file_name, player_id, title, played_on, chart_text, options, tags,
       analysis || '/' || n, corpus_id from takes, ${n} where id not like '%/%'`,
    `insert into items (id, job_id, corpus_id, place, file_name, source, sent_source, title, options, tags, state)
     select id || '/' || n, job_id, corpus_id, place, file_name, source || '/' || n, sent_source || '/' || n, title,
       options, tags, state from items, ${n} where id not like '%/%'`,
  ]) {
    await client.query(sql);
  }
}

interface Measured {
  readonly takes: number;
  readonly bytes: Readonly<
    Record<string, { readonly rows: number; readonly heap: number; readonly index: number }>
  >;
  /** Milliseconds, the least of three. */
  readonly questions: Readonly<Record<string, number>>;
}

async function measure(client: pg.Client, url: string, corpus: string, takes: number): Promise<Measured> {
  const bytes: Record<string, Measured["bytes"][string]> = {};
  for (const table of TABLES) {
    const { rows } = await client.query(
      `select (select count(*) from ${table})::float8 as rows, pg_table_size('${table}')::float8 as heap,
         pg_indexes_size('${table}')::float8 as index`,
    );
    bytes[table] = rows[0];
  }
  const at = `${url}/api/corpora/${corpus}`;
  const search = (body: unknown) => ({
    method: "POST",
    headers: { "content-type": "application/json" },
    body: JSON.stringify(body),
  });
  const asked: Record<string, () => Promise<Response>> = {
    "one take": () => fetch(`${url}/api/corpora/${corpus}`),
    summary: () => fetch(`${at}/summary`),
    "summary by chord": () => fetch(`${at}/summary?by=chord`),
    vocabulary: () => fetch(`${at}/vocabulary`),
    citation: () => fetch(`${at}/citation`),
    "first search (reads the corpus)": () => fetch(`${at}/search`, search({ symbols: [4, 3, 3, -2, -1] })),
    "search, two edits": () => fetch(`${at}/search`, search({ symbols: [2, 1, 2, 2, 1, 2], maxEdits: 2 })),
    "notes as Parquet": () => fetch(`${at}/notes?format=parquet`),
  };
  const questions: Record<string, number> = {};
  for (const [name, ask] of Object.entries(asked)) {
    const times: number[] = [];
    for (let i = 0; i < (name.startsWith("first") || name.startsWith("notes") ? 1 : 3); i++) {
      const began = performance.now();
      const response = await ask();
      await response.arrayBuffer();
      if (!response.ok) throw new Error(`${name}: ${response.status}`);
      times.push(performance.now() - began);
    }
    questions[name] = Math.min(...times);
  }
  return { takes, bytes, questions };
}

function print(small: Measured, large: Measured): void {
  console.log(`rows of ${small.takes} and of ${large.takes} takes`);
  console.log("table: rows a take, bytes a take, of these in indexes; at ten million takes");
  let all = 0;
  for (const table of TABLES) {
    const [a, b] = [small.bytes[table]!, large.bytes[table]!];
    const more = large.takes - small.takes;
    const perTake = (b.heap + b.index - a.heap - a.index) / more;
    all += perTake;
    console.log(
      `  ${table}: ${((b.rows - a.rows) / more).toFixed(1)} rows, ${(perTake / 1024).toFixed(2)} KB, ${((b.index - a.index) / more / 1024).toFixed(2)} KB in indexes; ${((perTake * GOAL) / 2 ** 40).toFixed(2)} TB`,
    );
  }
  console.log(`  all: ${(all / 1024).toFixed(1)} KB a take; ${((all * GOAL) / 2 ** 40).toFixed(2)} TB`);
  console.log(
    "question: milliseconds at both sizes, growth for four times the takes; at ten million in proportion",
  );
  for (const [name, ms] of Object.entries(large.questions)) {
    const before = small.questions[name]!;
    const slope = (ms - before) / (large.takes - small.takes);
    console.log(
      `  ${name}: ${before.toFixed(0)}, ${ms.toFixed(0)}, ${(ms / before).toFixed(1)} times; ${((Math.max(0, slope) * GOAL) / 1000).toFixed(0)} s`,
    );
  }
}
