/** How the examples of a line role are written down. */
import type { LineRole } from "../../src/harmony/index.ts";
import type { Setting } from "../harmony/notation.ts";

export const BLUES: Setting = { idiom: "blues" };

export interface Example {
  readonly why: string;
  readonly text: string;
  /** The role that it has. */
  readonly role: LineRole;
  /** Name of the note that it leads to; left out where it does not matter. */
  readonly to?: string | null;
  readonly manner?: string | null;
  readonly setting?: Setting;
}

export interface RuleExamples {
  readonly role: LineRole;
  readonly source: string;
  readonly is: readonly Omit<Example, "role">[];
  readonly isNot: readonly Example[];
}
