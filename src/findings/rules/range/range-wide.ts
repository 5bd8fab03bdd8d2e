import { intervalInWords, placesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule, rule } from "../../rule.ts";

export const rangeWide: Rule = rule({
  id: "range-wide",
  heading: "range",
  kind: "notice",
  measure: "semitones between the 10 % and the 90 % quantile of pitch",
  unit: "semitones",
  threshold: 17,
  reason:
    "An octave and a fourth in daily use, beyond one position of the hand and its neighbours [practice].",
  least: { notes: 32, full: 12 },
  importance: 0.5,
  chance: "fact",
  find({ account, solo }, threshold, least) {
    const { quantiles, low, high } = account.register;
    const [bottom, , , , top] = quantiles;
    if (bottom === undefined || top === undefined || low === null || high === null) return null;
    if (top - bottom < threshold) return null;
    const extremes = solo.filter((note) => note.pitch === low || note.pitch === high);
    return {
      observed: top - bottom,
      strength: beyond(top - bottom, threshold, least.full),
      evidence: ids(extremes),
      words: {
        range: intervalInWords(high - low),
        places: placesInWords(extremes, account.alignment.choruses),
      },
    };
  },
  wording: ["The line spans {range} from lowest to highest note ({places})."],
  practice: null,
});
