import type { Rule } from "../rule.ts";
import { HARMONIC_AWARENESS } from "./harmonic-awareness/index.ts";
import { KEYBOARD_TECHNIQUE } from "./keyboard-technique/index.ts";
import { LIMITS } from "./limits/index.ts";
import { MOTIVIC_DEVELOPMENT } from "./motivic-development/index.ts";
import { NEXT_STEPS } from "./next-steps/index.ts";
import { PHRASING } from "./phrasing/index.ts";
import { RANGE } from "./range/index.ts";
import { TIME_AND_FEEL } from "./time-and-feel/index.ts";

/** All that may be said of a take, under the headings that a teacher writes about. */
export const RULES: readonly Rule[] = [
  ...TIME_AND_FEEL,
  ...HARMONIC_AWARENESS,
  ...MOTIVIC_DEVELOPMENT,
  ...PHRASING,
  ...RANGE,
  ...KEYBOARD_TECHNIQUE,
  ...NEXT_STEPS,
  ...LIMITS,
];
