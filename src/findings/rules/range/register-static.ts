import type { AccountNote } from "../../../account.ts";
import { countInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule } from "../../rule.ts";

export const registerStatic: Rule = {
  id: "register-static",
  heading: "range",
  kind: "practise",
  measure: "largest difference between the median pitches of the choruses, semitones",
  threshold: 2,
  reason: "Under a whole step over three choruses, no chorus has a height of its own [practice].",
  least: { notes: 60, choruses: 3 },
  importance: 0.4,
  chance: "pitches shuffled",
  find({ account, solo }, threshold) {
    const medians = account.choruses
      .map((one) => one.register.quantiles[2])
      .filter((one) => one !== undefined);
    if (medians.length < 3) return null;
    const spread = Math.max(...medians) - Math.min(...medians);
    const [bottom, , , , top] = account.register.quantiles;
    if (spread > threshold || top! - bottom! >= 17) return null;
    return {
      observed: spread,
      strength: beyond(spread, threshold, -2),
      evidence: ids(
        account.choruses.flatMap((one) => solo.filter((note) => note.chorus === one.chorus).slice(0, 4)),
      ),
      words: {
        count: countInWords(medians.length),
        middle: nearest(solo, medians[0]!)?.spelling ?? "the middle of the keyboard",
      },
    };
  },
  wording: [
    "All {count} choruses live at the same height, around {middle}. Give each its own floor: begin the second an octave lower and the third an octave higher.",
  ],
  practice: {
    kind: "register ladder",
    title: "A floor for each chorus",
    text: "The same idea in three octaves, one for each chorus.",
  },
};

/** The note played nearest to a height. */
function nearest(notes: readonly AccountNote[], pitch: number): AccountNote | undefined {
  return [...notes].sort((a, b) => Math.abs(a.pitch - pitch) - Math.abs(b.pitch - pitch))[0];
}
