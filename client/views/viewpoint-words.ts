/** In what the places of an idea are alike, as a musician says it. */
import type { MotifViewpoint } from "../../src/account.ts";

export const VIEWPOINT_WORDS: Readonly<Record<MotifViewpoint, string>> = {
  "chromatic interval": "steps",
  "interval and rhythm": "steps and rhythm",
  degree: "degrees",
  contour: "ups and downs",
  rhythm: "rhythm",
  finger: "fingers",
};
