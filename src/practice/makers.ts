import { approachBars } from "./approach-notes.ts";
import { callAndAnswerBars } from "./call-and-answer.ts";
import type { PracticeContext } from "./context.ts";
import { enclosureBars } from "./enclosures.ts";
import { entryBars } from "./entries.ts";
import type { ExerciseBar } from "./exercise.ts";
import { guideToneBars } from "./guide-tones.ts";
import { improvisationBars } from "./improvisation.ts";
import type { PracticeKind } from "./kinds.ts";
import { motifMovedBars } from "./motif-moved.ts";
import { placementBars } from "./placements.ts";
import { registerLadderBars } from "./register-ladder.ts";
import { restBars } from "./rests.ts";
import { sharedPlacementBars } from "./shared-placements.ts";
import { slideBars } from "./slides.ts";
import { steadyTimeBars } from "./steady-time.ts";

/** How an exercise of each kind is made, and whether it begins in free time. */
export interface Maker {
  readonly bars: (context: PracticeContext) => ExerciseBar[];
  readonly freeFirst: boolean;
  /** Left to the student: nothing is printed but the chords, and where the hand may stand. */
  readonly open?: true;
  /** Where the click falls at the end of the plan. */
  readonly click: "every beat" | "two and four";
}

export const MAKERS: Readonly<Record<PracticeKind, Maker>> = {
  placements: { bars: placementBars, freeFirst: true, click: "every beat" },
  "motif to every placement": { bars: motifMovedBars, freeFirst: true, click: "two and four" },
  "call and answer": { bars: callAndAnswerBars, freeFirst: false, click: "two and four" },
  slides: { bars: slideBars, freeFirst: true, click: "every beat" },
  rests: { bars: restBars, freeFirst: false, click: "two and four" },
  "register ladder": { bars: registerLadderBars, freeFirst: false, click: "two and four" },
  "shared placements": { bars: sharedPlacementBars, freeFirst: true, click: "two and four" },
  "guide tones": { bars: guideToneBars, freeFirst: true, click: "two and four" },
  "approach notes": { bars: approachBars, freeFirst: true, click: "every beat" },
  enclosures: { bars: enclosureBars, freeFirst: true, click: "every beat" },
  "even pairs": { bars: steadyTimeBars, freeFirst: false, click: "two and four" },
  "steady time": { bars: steadyTimeBars, freeFirst: false, click: "two and four" },
  entries: { bars: entryBars, freeFirst: false, click: "two and four" },
  improvisation: { bars: improvisationBars, freeFirst: false, open: true, click: "two and four" },
};
