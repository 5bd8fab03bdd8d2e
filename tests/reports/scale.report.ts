/**
 * `npm run report -- scale [TAKES] [EMBEDDED]`: a generated corpus of TAKES takes (about 600 notes each) through the
 * API on PostgreSQL with two workers, and one of EMBEDDED takes on the embedded store.
 */
import { mkdtempSync, rmSync } from "node:fs";
import { loadavg, tmpdir } from "node:os";
import { join } from "node:path";
import { postgresIsInstalled, startPostgres } from "../server/postgres.ts";
import { bareRate, type CorpusRun, generatedCorpus, type Rate, runCorpus } from "../server/scale.ts";

const WORKERS = 2;
const BARE_TAKES = 60;

export async function report(args: string[]): Promise<void> {
  const takes = Number(args[0] ?? 500);
  const embedded = Number(args[1] ?? Math.min(takes, 500));
  const log = (line: string) => console.log(`  ${line}`);
  const bare = bareRate(BARE_TAKES);
  console.log(`analysis alone, in one process: ${rateText(bare)}`);
  if (takes > 0 && postgresIsInstalled()) {
    console.log(`PostgreSQL, ${WORKERS} worker processes`);
    const postgres = await startPostgres();
    try {
      const databaseUrl = await postgres.database();
      const parts = generatedCorpus(takes);
      const run = await runCorpus({
        ...{ parts, workers: WORKERS, databaseUrl, dataDir: "", postgres: postgres.pid(), log },
      });
      // Once more, because the machine may be busier or less so than before.
      print(together(bare, bareRate(BARE_TAKES)), run);
    } finally {
      postgres.stop();
    }
  } else if (takes > 0) console.log("PostgreSQL is not installed here: this part is skipped");
  if (embedded === 0) return;
  console.log("embedded store, the server works itself");
  const dataDir = mkdtempSync(join(tmpdir(), "ledgerline-scale-"));
  try {
    const parts = generatedCorpus(embedded);
    print(bare, await runCorpus({ parts, workers: WORKERS, databaseUrl: "", dataDir, postgres: null, log }));
  } finally {
    rmSync(dataDir, { recursive: true, force: true });
  }
}

function print(bare: Rate, { queue, questions, tables, peakMemory }: CorpusRun): void {
  const share = perProcessor(queue) / perProcessor(bare);
  console.log(`  through the queue: ${rateText(queue)}`);
  console.log(`  ${share.toFixed(2)} of the rate of the analysis alone, for each processor (bound 0.5)`);
  const slowest = (start: string, from: number) =>
    Math.max(
      ...questions
        .filter(({ name }) => name.startsWith(start))
        .flatMap(({ milliseconds }) => milliseconds.slice(from)),
    );
  console.log(
    `  summaries of ${count(queue.notes)} notes: slowest ${ms(slowest("summary", 0))} (bound 2000 ms)`,
  );
  console.log(
    `  searches: slowest ${ms(slowest("search", 1))} (bound 200 ms); the first of a viewpoint, which reads the corpus, ${ms(slowest("search", 0))}`,
  );
  for (const { format, rows, bytes, seconds, processorSeconds } of tables) {
    console.log(
      `  ${format}: ${count(rows / seconds)} notes a second, ${count(rows / processorSeconds)} for each second of a processor, ${(bytes / 2 ** 20).toFixed(0)} MB (bound 200,000)`,
    );
  }
  console.log(`  largest memory of the server: ${Math.round(peakMemory / 2 ** 20)} MB (bound 600)`);
  console.log(
    `  load of the machine meanwhile: ${loadavg()
      .map((load) => load.toFixed(1))
      .join(", ")}`,
  );
}

function together(one: Rate, other: Rate): Rate {
  return {
    takes: one.takes + other.takes,
    notes: one.notes + other.notes,
    seconds: one.seconds + other.seconds,
    processorSeconds: one.processorSeconds + other.processorSeconds,
  };
}

function perProcessor({ notes, processorSeconds }: Rate): number {
  return notes / processorSeconds;
}

function rateText(rate: Rate): string {
  const { takes, notes, seconds, processorSeconds } = rate;
  return `${takes} takes, ${count(notes)} notes in ${seconds.toFixed(0)} s by the clock and ${processorSeconds.toFixed(0)} s of processors; ${(takes / processorSeconds).toFixed(1)} takes and ${count(perProcessor(rate))} notes a second for each processor`;
}

function count(n: number): string {
  return Math.round(n).toLocaleString("en");
}

function ms(n: number): string {
  return `${Math.round(n)} ms`;
}
