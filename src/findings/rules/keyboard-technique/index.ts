import type { Rule } from "../../rule.ts";
import { commonPlacementKept } from "./common-placement-kept.ts";
import { commonPlacementLeft } from "./common-placement-left.ts";
import { fingeringMoved } from "./fingering-moved.ts";
import { onePlacementOnly } from "./one-placement-only.ts";
import { placementUnused } from "./placement-unused.ts";
import { placementsBothUsed } from "./placements-both-used.ts";
import { shiftsComeLate } from "./shifts-come-late.ts";
import { shiftsWide } from "./shifts-wide.ts";
import { slidesMissed } from "./slides-missed.ts";
import { slidesTaken } from "./slides-taken.ts";
import { wideStretch } from "./wide-stretch.ts";

/** What is said of keyboard technique. */
export const KEYBOARD_TECHNIQUE: readonly Rule[] = [
  placementsBothUsed,
  onePlacementOnly,
  placementUnused,
  commonPlacementKept,
  commonPlacementLeft,
  slidesTaken,
  slidesMissed,
  fingeringMoved,
  shiftsComeLate,
  shiftsWide,
  wideStretch,
];
