/** Proposes charts for one take in a thread of its own. */
import type { AnalyseOptionsInput } from "../../src/account.ts";
import { type Proposal, proposeFor } from "../../src/propose.ts";
import { Problem } from "../../src/take/index.ts";
import { type SerialisedProblem, serialiseProblem } from "../serialise-problem.ts";

export interface ProposeTask {
  readonly bytes: Uint8Array;
  readonly options: AnalyseOptionsInput;
}

export type ProposeResult =
  | { readonly ok: true; readonly proposal: Proposal }
  | {
      readonly ok: false;
      readonly problem: SerialisedProblem;
    };

export default function run(task: ProposeTask): ProposeResult {
  try {
    return { ok: true, proposal: proposeFor(task.bytes, task.options) };
  } catch (error) {
    if (!(error instanceof Problem)) throw error;
    return { ok: false, problem: serialiseProblem(error) };
  }
}
