import type { Rule } from "../rule.ts";
import { HARMONIC_AWARENESS } from "./harmonic-awareness.ts";
import { KEYBOARD_TECHNIQUE } from "./keyboard-technique.ts";
import { LIMITS } from "./limits.ts";
import { MOTIVIC_DEVELOPMENT } from "./motivic-development.ts";
import { NEXT_STEPS } from "./next-steps.ts";
import { PHRASING } from "./phrasing.ts";
import { RANGE } from "./range.ts";
import { TIME_AND_FEEL } from "./time-and-feel.ts";

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
