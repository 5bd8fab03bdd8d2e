import type { Rule } from "../../rule.ts";
import { barsUncertain } from "./bars-uncertain.ts";
import { freeTime } from "./free-time.ts";
import { handNotExplained } from "./hand-not-explained.ts";
import { takeIsShort } from "./take-is-short.ts";

/** Notices about what the account itself can and cannot carry. */
export const LIMITS: readonly Rule[] = [takeIsShort, barsUncertain, freeTime, handNotExplained];
