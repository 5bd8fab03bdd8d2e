import { intervalInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule, rule } from "../../rule.ts";

export const rangeNarrow: Rule = rule({
  id: "range-narrow",
  heading: "range",
  kind: "practise",
  measure: "semitones between the 10 % and the 90 % quantile of pitch",
  unit: "semitones",
  threshold: 10,
  reason: "One position of the hand (a shape and its neighbour) spans about that [practice].",
  least: { notes: 40, full: -5 },
  importance: 0.6,
  chance: "fact",
  find({ account, solo }, threshold, least) {
    const { quantiles } = account.register;
    const [bottom, , , , top] = quantiles;
    if (bottom === undefined || top === undefined || top - bottom > threshold) return null;
    const highest = solo.filter((note) => note.pitch === account.register.high);
    return {
      observed: top - bottom,
      strength: beyond(top - bottom, threshold, least.full),
      evidence: ids(highest),
      words: {
        range: intervalInWords(Math.round(top - bottom)),
        top: highest[0]?.spelling ?? "your highest note",
      },
    };
  },
  wording: [
    "Most of the solo stays within {range}. Take the same phrase an octave higher in the second half of the chorus, beyond {top}.",
    "The hand has found a place, {range} wide, and likes it there. Let the next chorus begin an octave above.",
  ],
  practice: {
    kind: "register ladder",
    title: "Up the ladder",
    text: "One idea, one octave higher each time, with the shift played in the rest.",
  },
});
