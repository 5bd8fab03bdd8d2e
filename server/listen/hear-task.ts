/** What goes to the process that hears and what comes back. */
import type { SerialisedProblem } from "../serialise-problem.ts";

export interface HearTask {
  /** Path of the recording. */
  readonly file: string;
  /** Its name, for messages. */
  readonly name: string;
  /** Path of the network. */
  readonly network: string;
}

export type HearAnswer =
  /** Share that is done, 0 to 1. */
  | { readonly progress: number }
  | { readonly document: Uint8Array }
  | { readonly problem: SerialisedProblem }
  /** What broke, for the log. */
  | { readonly fault: string };
