import { generateTake } from "../../corpus/generator/generate-take.ts";
import { randomSpec } from "../../corpus/generator/random-spec.ts";
import { analyse } from "../../src/analyse.ts";
import { chartText } from "../../src/chart/index.ts";
import { judgeFindings } from "../../src/findings/index.ts";
import { solosOnCharts } from "../outside/chart-trials.ts";
import { factsByTruth } from "../outside/open-accounts.ts";
import { OPEN_SOLOS_MISSING } from "../outside/open-solos.ts";
import type { Bench } from "./types.ts";

/** Milliseconds of a processor for the draws of a minute of music; and their share of a whole analysis. */
const MINUTE_MS = 15;
const SHARE = 0.2;

const TAKES = 30;

export const bench: Bench = {
  name: "findings: weighing against draws of chance",
  run() {
    const lines: string[] = [];
    const takes = Array.from({ length: TAKES }, (_, i) => {
      const spec = randomSpec(i + 1);
      return { bytes: generateTake(i + 1, spec).bytes, chart: chartText(spec.chart) };
    });
    const analyseAll = () => takes.map(({ bytes, chart }) => analyse(bytes, chart));
    analyseAll();
    const { works: accounts, milliseconds: whole } = timed(analyseAll);
    const minutes = accounts.reduce((sum, { source }) => sum + source.seconds, 0) / 60;
    lines.push(`whole analysis of generated takes: ${(whole / minutes).toFixed(1)} ms a minute of music`);
    if (OPEN_SOLOS_MISSING !== null) return [...lines, `draws: skipped: ${OPEN_SOLOS_MISSING}`];
    const solos = solosOnCharts().slice(0, TAKES);
    const made = solos.map((on) => factsByTruth(on, null));
    const music = solos.reduce((sum, { solo }) => sum + solo.notes[solo.notes.length - 1]!.onset, 0) / 60;
    const judgeAll = () => made.map(({ facts, lines: drawn }) => judgeFindings(facts, drawn));
    judgeAll();
    const { milliseconds: drawing } = timed(judgeAll);
    const notes = made.reduce((sum, { facts }) => sum + facts.solo.length, 0);
    lines.push(
      `199 draws of ${solos.length} open solos, ${Math.round(notes / music)} notes a minute: ${(drawing / music).toFixed(1)} ms a minute of music (at most ${MINUTE_MS}), ` +
        `${(drawing / music / (whole / minutes)).toFixed(2)} of a whole analysis of generated takes (at most ${SHARE})`,
    );
    return lines;
  },
};

function timed<T>(work: () => T): { works: T; milliseconds: number } {
  const start = process.cpuUsage();
  const works = work();
  const { user, system } = process.cpuUsage(start);
  return { works, milliseconds: (user + system) / 1000 };
}
