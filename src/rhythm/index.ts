export { lbdm, type TimedLine } from "./boundaries.ts";
export { describeTime } from "./describe-time.ts";
export { findPhrases } from "./phrases.ts";
export { findRuns, runNotes } from "./runs.ts";
export { phraseShape } from "./shape.ts";
export { type SwungBeat, swingOf, swungBeats } from "./swing.ts";
export { HEARD, hearingThreshold } from "./timing.ts";
