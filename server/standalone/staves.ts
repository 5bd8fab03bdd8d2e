/** Exercises as engraved pictures, without a browser. */
import { engravingOptions, hasOwnBreaks } from "../../src/export/engraving.ts";
import { writeMusicXml } from "../../src/export/write-musicxml.ts";
import { type Exercise, exerciseScore } from "../../src/practice/index.ts";
import { openPlainThread } from "../analysis/threads.ts";

/** Width of the music in CSS pixels, and the size of the staff in percent: four bars of eighths to a line. */
const WIDTH = 900;
const SCALE = 38;

const engraver = openPlainThread(new URL("./engrave.js", import.meta.url));

/** SVG text by exercise id; an exercise that cannot be engraved is left out. */
export async function stavesOf(exercises: readonly Exercise[]): Promise<Record<string, string>> {
  const scores = exercises.map((exercise) => writeMusicXml(exerciseScore(exercise)));
  // A score without breaks of its own is laid by the engraver.
  const broken = scores.map(hasOwnBreaks);
  const [own, laid] = await Promise.all(
    [true, false].map(
      (ownBreaks) =>
        engraver.run({
          options: engravingOptions({ width: WIDTH, scale: SCALE, height: null, ownBreaks, hasHead: false }),
          scores: scores.filter((_, i) => broken[i] === ownBreaks),
        }) as Promise<(string | null)[]>,
    ),
  );
  return Object.fromEntries(
    exercises.flatMap(({ id }, i) => {
      const picture = (broken[i] ? own : laid)?.shift();
      return picture ? [[id, picture] as const] : [];
    }),
  );
}
