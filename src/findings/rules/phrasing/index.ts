import type { Rule } from "../../rule.ts";
import { densityBuilds } from "./density-builds.ts";
import { endingsAllOnRoot } from "./endings-all-on-root.ts";
import { endingsOpen } from "./endings-open.ts";
import { peakPlacedLate } from "./peak-placed-late.ts";
import { phraseLengthsVary } from "./phrase-lengths-vary.ts";
import { phraseShapesAlike } from "./phrase-shapes-alike.ts";
import { phraseShapesVary } from "./phrase-shapes-vary.ts";
import { phraseStartsAlike } from "./phrase-starts-alike.ts";
import { phraseStartsVary } from "./phrase-starts-vary.ts";
import { phraseWithoutBreath } from "./phrase-without-breath.ts";
import { phrasesAnswer } from "./phrases-answer.ts";
import { phrasesDoNotAnswer } from "./phrases-do-not-answer.ts";
import { restsBreathe } from "./rests-breathe.ts";
import { restsFew } from "./rests-few.ts";
import { seamPlayedAcross } from "./seam-played-across.ts";
import { startsFull } from "./starts-full.ts";

/** What is said of phrasing and shape. */
export const PHRASING: readonly Rule[] = [
  restsBreathe,
  restsFew,
  phrasesAnswer,
  phrasesDoNotAnswer,
  phraseStartsVary,
  phraseStartsAlike,
  phraseWithoutBreath,
  phraseLengthsVary,
  phraseShapesVary,
  phraseShapesAlike,
  seamPlayedAcross,
  densityBuilds,
  startsFull,
  peakPlacedLate,
  endingsAllOnRoot,
  endingsOpen,
];
