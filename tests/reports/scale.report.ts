/**
 * `npm run report -- scale [TAKES] [EMBEDDED]`: a generated corpus of TAKES takes (about 600 notes each, 10,000 of them
 * by default, for which the bounds are meant) through the API on PostgreSQL with two workers, and one of EMBEDDED takes
 * on the embedded store. Beside the clock, which a busy machine slows down, stands the time of processors.
 */
import { mkdtempSync, rmSync } from "node:fs";
import { loadavg, tmpdir } from "node:os";
import { join } from "node:path";
import { postgresIsInstalled, startPostgres } from "../server/postgres.ts";
import { bareRate, type CorpusRun, generatedCorpus, type Rate, runCorpus } from "../server/scale.ts";

/** What is asked of ten thousand takes. */
const BOUNDS = { share: 0.8, summaryMs: 1000, searchMs: 200, notesASecond: 250_000, memoryMb: 600 };
const WORKERS = 2;
const BARE_TAKES = 60;

export async function report(args: string[]): Promise<void> {
  const takes = Number(args[0] ?? 10_000);
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
  console.log(
    `  ${share.toFixed(2)} of the rate of the analysis alone, for each processor (bound ${BOUNDS.share})`,
  );
  const most = (start: string, of: "milliseconds" | "processorMs", from: number) =>
    ms(
      Math.max(
        ...questions.filter(({ name }) => name.startsWith(start)).flatMap((asked) => asked[of].slice(from)),
      ),
    );
  const told = (start: string, from: number) =>
    `slowest ${most(start, "milliseconds", from)}, at most ${most(start, "processorMs", from)} of processors`;
  console.log(
    `  summaries of ${count(queue.notes)} notes: ${told("summary", 0)} (bound ${ms(BOUNDS.summaryMs)})`,
  );
  console.log(`  searches, also with two edits: ${told("search", 1)} (bound ${ms(BOUNDS.searchMs)})`);
  console.log(`  the first search of a viewpoint, which reads the corpus: ${told("search", 0)}`);
  for (const { format, rows, bytes, seconds, processorSeconds } of tables) {
    console.log(
      `  ${format}: ${count(rows / seconds)} notes a second, ${count(rows / processorSeconds)} for each second of a processor, ${(bytes / 2 ** 20).toFixed(0)} MB (bound ${count(BOUNDS.notesASecond)})`,
    );
  }
  console.log(
    `  largest memory of the server: ${Math.round(peakMemory / 2 ** 20)} MB (bound ${BOUNDS.memoryMb})`,
  );
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
