/** Exercises as engraved pictures, without a browser. */
import {
  engravingOptions,
  hasOwnBreaks,
  inLinesOf,
  inShortWords,
  lastLineIsFull,
} from "../../src/export/engraving.ts";
import { partHead } from "../../src/export/score-head.ts";
import { writeMusicXml } from "../../src/export/write-musicxml.ts";
import type { EngravedExercise } from "../../src/findings/index.ts";
import { type Exercise, exerciseScore } from "../../src/practice/index.ts";
import { openPlainThread } from "../analysis/threads.ts";

/**
 * Of the music in CSS pixels: between the margins of A4, with four bars of eighths to a line, and on a phone, with two.
 * A file does not know where it will be opened, so it carries both.
 */
const WIDE = 680;
const NARROW = 340;
const BARS_ON_A_PHONE = 2;
/** Size of the staff in percent, as on the practice sheet. */
const SCALE = 38;

const engraver = openPlainThread(new URL("./engrave.js", import.meta.url));

/** By exercise id; an exercise that cannot be engraved is left out. */
export async function stavesOf(exercises: readonly Exercise[]): Promise<Record<string, EngravedExercise>> {
  const scores = exercises.map((exercise) => partHead(writeMusicXml(exerciseScore(exercise))));
  const bare = scores.map(({ rest }) => rest);
  const [wide, narrow] = await Promise.all([
    engraved(bare, WIDE),
    engraved(
      bare.map((score) => inLinesOf(score, BARS_ON_A_PHONE)),
      NARROW,
    ),
  ]);
  return Object.fromEntries(
    exercises.flatMap(({ id }, i) =>
      wide[i] && narrow[i]
        ? [[id, { head: scores[i]!.head, wide: wide[i], narrow: narrow[i] }] as const]
        : [],
    ),
  );
}

/** SVG text of each, in its order; null for what cannot be engraved. */
const engraved = (scores: readonly string[], width: number): Promise<(string | null)[]> =>
  Promise.all(
    scores.map(async (score) => {
      // A score without breaks of its own is laid by the engraver.
      const ownBreaks = hasOwnBreaks(score);
      const fillsLast = ownBreaks && lastLineIsFull(score);
      const [picture] = (await engraver.run({
        options: engravingOptions({
          width,
          scale: SCALE,
          height: null,
          ownBreaks,
          fillsLast,
          hasHead: false,
        }),
        scores: [inShortWords(score, width)],
      })) as (string | null)[];
      return picture ?? null;
    }),
  );
