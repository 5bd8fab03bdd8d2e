import type { LensMeasureId } from "../names.ts";
import type { Reader } from "../reading.ts";
import { bothPlaces, fingeringMoved, slides } from "./hand.ts";
import {
  avoidLeaned,
  blueThirds,
  blueThirdToThird,
  guideTonesAtChanges,
  outsideAndBack,
  outsideNotes,
} from "./harmony.ts";
import { ideaInOneChorus, ideaThroughChorus } from "./idea.ts";
import { approaches, enclosures } from "./line.ts";
import { answers, longestPhrase, rests } from "./phrasing.ts";
import { range, registerChange } from "./range.ts";
import { placingSpread, swingSpread } from "./time.ts";

/** How each measure is read from a take. */
export const READERS: Readonly<Record<LensMeasureId, Reader>> = {
  "both-places": bothPlaces,
  "fingering-moved": fingeringMoved,
  slides,
  "blue-thirds": blueThirds,
  "blue-third-to-third": blueThirdToThird,
  "avoid-leaned": avoidLeaned,
  "guide-tones-at-changes": guideTonesAtChanges,
  approaches,
  enclosures,
  "outside-notes": outsideNotes,
  "outside-and-back": outsideAndBack,
  "idea-in-one-chorus": ideaInOneChorus,
  "idea-through-chorus": ideaThroughChorus,
  rests,
  answers,
  "longest-phrase": longestPhrase,
  range,
  "register-change": registerChange,
  "swing-spread": swingSpread,
  "placing-spread": placingSpread,
};
