/** Runs one analysis in a thread of its own, so that the server answers meanwhile. */
import { gzipSync } from "node:zlib";
import { analyse } from "../../src/analyse.ts";
import { Problem } from "../../src/take/index.ts";
import { encodeLine } from "../corpus/line.ts";
import { tallyOf } from "../corpus/tally.ts";
import { type AnalysisResult, type AnalysisTask, factsOf, ideasOf } from "./task.ts";

export default function run(task: AnalysisTask): AnalysisResult {
  try {
    const analysis = analyse(task.bytes, task.chart, task.options);
    return {
      ok: true,
      account: gzipSync(JSON.stringify(analysis), { level: 4 }),
      facts: factsOf(analysis),
      tallies: tallyOf(analysis),
      ideas: ideasOf(analysis),
      line: encodeLine(analysis),
    };
  } catch (error) {
    if (!(error instanceof Problem)) throw error;
    const { code, message, where, todo } = error;
    return { ok: false, problem: { code, message, where, todo } };
  }
}
