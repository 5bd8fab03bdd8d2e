import { countInWords, placesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule } from "../../rule.ts";

export const phraseLengthsVary: Rule = {
  id: "phrase-lengths-vary",
  heading: "phrasing and shape",
  kind: "works",
  measure: "longest middle phrase over shortest: quartiles of the number of notes",
  threshold: 1.8,
  reason: "Short and long phrases side by side: the upper quartile nearly twice the lower [practice].",
  least: { notes: 24, phrases: 6 },
  importance: 0.4,
  chance: "moved in time",
  find({ phrases, account }, threshold) {
    const lengths = phrases.map(({ notes }) => notes.length).sort((a, b) => a - b);
    const low = lengths[Math.floor(lengths.length / 4)]!;
    const high = lengths[Math.floor((3 * lengths.length) / 4)]!;
    if (low < 1 || high / low < threshold) return null;
    const short = phrases.filter(({ notes }) => notes.length === low).slice(0, 1);
    const long = phrases.filter(({ notes }) => notes.length === high).slice(0, 1);
    const starts = [...short, ...long].flatMap(({ notes }) => notes.slice(0, 1));
    return {
      observed: high / low,
      strength: beyond(high / low, threshold, 2),
      evidence: ids([...short, ...long].flatMap(({ notes }) => notes)),
      words: {
        low: countInWords(low),
        high: countInWords(high),
        places: placesInWords(starts, account.alignment.choruses),
      },
    };
  },
  wording: [
    "Short phrases of {low} notes stand beside long ones of {high} ({places}); the story has short sentences and long ones.",
  ],
  practice: null,
};
