/** Two letters for each line role, for notes too small for words. */
import type { LineRole } from "../../src/harmony/roles.ts";

export const LINE_ROLE_LETTERS: Readonly<Record<LineRole, string>> = {
  anticipation: "an",
  suspension: "su",
  enclosure: "en",
  approach: "ap",
  passing: "pa",
  neighbour: "ne",
  appoggiatura: "at",
  escape: "es",
  "chord tone": "ct",
  "held colour": "hc",
  free: "fr",
};

/** The line roles in the order in which they are told apart. */
export const LINE_ROLE_NAMES = Object.keys(LINE_ROLE_LETTERS) as readonly LineRole[];
