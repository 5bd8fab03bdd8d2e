/** Runs one analysis in a thread of its own, so that the server answers meanwhile. */
import { gzipSync } from "node:zlib";
import { analyse } from "../../src/analyse.ts";
import { TABLE_NAMES, TABLES } from "../../src/export/index.ts";
import { Problem } from "../../src/take/index.ts";
import { blockName, blockOf, packBlock } from "../corpus/block.ts";
import { encodeLine, packStored } from "../corpus/stored-line.ts";
import { tallyOf } from "../corpus/tally.ts";
import { serialiseProblem } from "../serialise-problem.ts";
import { type AnalysisResult, BROKEN_OFF, factsOf, ideasOf, type ThreadTask } from "./task.ts";
import { tellBegun } from "./thread-time.ts";

export default function run(task: ThreadTask): AnalysisResult {
  tellBegun(task.begun);
  try {
    const analysis = analyse(task.bytes, task.chart, task.options);
    const line = encodeLine(analysis);
    return {
      ok: true,
      account: gzipSync(JSON.stringify(analysis), { level: 4 }),
      facts: factsOf(analysis),
      tallies: tallyOf(analysis),
      ideas: ideasOf(analysis),
      line,
      packed: packStored(line),
      blocks: TABLE_NAMES.map((name) => ({
        name: blockName(name),
        block: packBlock(blockOf(TABLES[name], analysis)),
      })),
    };
  } catch (error) {
    return { ok: false, problem: serialiseProblem(error instanceof Problem ? error : brokenOff(error)) };
  }
}

/** A fault of ours. The analysis is a pure function, so trying it again would end in the same way. */
function brokenOff(error: unknown): Problem {
  const what = error instanceof Error ? `${error.name}: ${error.message}` : String(error);
  return new Problem(
    BROKEN_OFF,
    `The analysis broke off (${what})`,
    null,
    "This is a fault of the program: report it together with the file.",
  );
}
