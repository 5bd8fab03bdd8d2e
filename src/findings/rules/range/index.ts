import type { Rule } from "../../rule.ts";
import { lowRegisterUsed } from "./low-register-used.ts";
import { rangeNarrow } from "./range-narrow.ts";
import { rangeWide } from "./range-wide.ts";
import { registerClimbs } from "./register-climbs.ts";
import { registerStatic } from "./register-static.ts";

/** What is said of range. */
export const RANGE: readonly Rule[] = [
  rangeWide,
  rangeNarrow,
  registerClimbs,
  registerStatic,
  lowRegisterUsed,
];
