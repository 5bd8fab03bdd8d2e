import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { postgresIsInstalled, startPostgres } from "../server/postgres.ts";
import { bareRate, type CorpusRun, generatedCorpus, runCorpus } from "../server/scale.ts";
import type { Bench } from "./types.ts";

/** Few, so that it ends soon; starting the processes weighs more here than in the report of the same at full size. */
const TAKES = 240;

export const bench: Bench = {
  name: "a corpus through the queue (npm run report -- scale 10000 for the full size)",
  async run() {
    const bare = bareRate(30);
    const parts = generatedCorpus(TAKES);
    const lines = [
      `analysis alone: ${rate(bare.takes, bare.processorSeconds)} takes and ${rate(bare.notes, bare.processorSeconds)} notes a second of a processor`,
    ];
    const log = () => {};
    if (postgresIsInstalled()) {
      const postgres = await startPostgres();
      try {
        const databaseUrl = await postgres.database();
        const plan = { parts, workers: 2, databaseUrl, dataDir: "", postgres: postgres.pid(), log };
        lines.push(...linesOf("PostgreSQL, two workers", await runCorpus(plan)));
      } finally {
        postgres.stop();
      }
    } else lines.push("PostgreSQL is not installed here: skipped");
    const dataDir = mkdtempSync(join(tmpdir(), "ledgerline-bench-"));
    try {
      const plan = { parts, workers: 2, databaseUrl: "", dataDir, postgres: null, log };
      lines.push(...linesOf("embedded store", await runCorpus(plan)));
    } finally {
      rmSync(dataDir, { recursive: true, force: true });
    }
    return lines;

    function linesOf(name: string, { queue, questions, tables, peakMemory }: CorpusRun): string[] {
      const share = queue.notes / queue.processorSeconds / (bare.notes / bare.processorSeconds);
      const slowest = (start: string) =>
        Math.max(
          ...questions
            .filter((question) => question.name.startsWith(start))
            .flatMap(({ milliseconds }) => milliseconds.slice(1)),
        );
      return [
        `${name}: ${rate(queue.takes, queue.processorSeconds)} takes and ${rate(queue.notes, queue.processorSeconds)} notes a second of a processor, ${share.toFixed(2)} of the analysis alone (bound 0.5, without the start of processes)`,
        `${name}: slowest summary ${Math.round(slowest("summary"))} ms, slowest search ${Math.round(slowest("search"))} ms`,
        ...tables.map(
          ({ format, rows, seconds, processorSeconds }) =>
            `${name}: ${format} ${rate(rows, seconds)} notes a second, ${rate(rows, processorSeconds)} for each second of a processor`,
        ),
        `${name}: largest memory of the server ${Math.round(peakMemory / 2 ** 20)} MB (bound 600)`,
      ];
    }
  },
};

function rate(amount: number, seconds: number): string {
  const each = amount / seconds;
  return each < 100 ? each.toFixed(1) : Math.round(each).toLocaleString("en");
}
