export { lbdm } from "./boundaries.ts";
export type { Cut } from "./cuts.ts";
export { describeTime } from "./describe-time.ts";
export { findPhrases, phraseEnds } from "./phrases.ts";
export { findRuns, runNotes } from "./runs.ts";
export { phraseShape } from "./shape.ts";
export { swingOf } from "./swing.ts";
export { hearingThreshold } from "./timing.ts";
