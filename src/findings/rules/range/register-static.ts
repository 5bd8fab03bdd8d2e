import type { AccountNote } from "../../../account.ts";
import { countInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import type { MeasuredLine } from "../../measured-line.ts";
import { beyond, type Rule, rule } from "../../rule.ts";
import { heights } from "./heights.ts";

function spreadOf(line: MeasuredLine): number | null {
  const medians = heights(line);
  return medians.length < 2 ? null : Math.max(...medians) - Math.min(...medians);
}

export const registerStatic: Rule = rule({
  id: "register-static",
  heading: "range",
  kind: "practise",
  measure: "largest difference between the median pitches of the choruses, semitones",
  unit: "semitones",
  threshold: 2,
  reason: "Under a whole step over three choruses, no chorus has a height of its own [practice].",
  least: { notes: 60, choruses: 3, full: -2, wide: 17, shown: 4 },
  importance: 0.4,
  chance: { null: "pitches shuffled", count: spreadOf, than: "less" },
  find(facts, threshold, least) {
    const { account, solo } = facts;
    const medians = heights(facts);
    if (medians.length < least.choruses) return null;
    const spread = Math.max(...medians) - Math.min(...medians);
    const [bottom, , , , top] = account.register.quantiles;
    if (spread > threshold || top! - bottom! >= least.wide) return null;
    return {
      observed: spread,
      strength: beyond(spread, threshold, least.full),
      evidence: ids(
        account.choruses.flatMap((one) =>
          solo.filter((note) => note.chorus === one.chorus).slice(0, least.shown),
        ),
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
});

/** The note played nearest to a height. */
function nearest(notes: readonly AccountNote[], pitch: number): AccountNote | undefined {
  return [...notes].sort((a, b) => Math.abs(a.pitch - pitch) - Math.abs(b.pitch - pitch))[0];
}
