import type { Rule } from "../../rule.ts";
import { allSteps } from "./all-steps.ts";
import { leapsTurnedBack } from "./leaps-turned-back.ts";
import { motifCarriedOver } from "./motif-carried-over.ts";
import { motifMoved } from "./motif-moved.ts";
import { motifNeverMoved } from "./motif-never-moved.ts";
import { motifReturns } from "./motif-returns.ts";
import { noMotifKept } from "./no-motif-kept.ts";
import { oneRunAsEvent } from "./one-run-as-event.ts";
import { runsTakeOver } from "./runs-take-over.ts";
import { stepsAndLeapsBalanced } from "./steps-and-leaps-balanced.ts";

/** What is said of melodic and motivic development. */
export const MOTIVIC_DEVELOPMENT: readonly Rule[] = [
  motifReturns,
  motifMoved,
  motifCarriedOver,
  noMotifKept,
  motifNeverMoved,
  runsTakeOver,
  oneRunAsEvent,
  stepsAndLeapsBalanced,
  allSteps,
  leapsTurnedBack,
];
