import { countInWords, placesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import type { MeasuredLine } from "../../measured-line.ts";
import { beyond, type Rule, rule } from "../../rule.ts";

const QUARTER = 0.25;

/** Notes in the phrase a quarter and three quarters of the way from the shortest to the longest. */
function quartiles(phrases: MeasuredLine["phrases"]): { low: number; high: number } {
  const lengths = phrases.map(({ notes }) => notes.length).sort((a, b) => a - b);
  const at = (share: number) => lengths[Math.floor(share * lengths.length)] ?? 0;
  return { low: at(QUARTER), high: at(1 - QUARTER) };
}

function spreadOfLengths({ phrases }: MeasuredLine): number | null {
  const { low, high } = quartiles(phrases);
  return low === 0 ? null : high / low;
}

export const phraseLengthsVary: Rule = rule({
  id: "phrase-lengths-vary",
  heading: "phrasing and shape",
  kind: "works",
  measure: "longest middle phrase over shortest: quartiles of the number of notes",
  unit: "ratio",
  threshold: 1.8,
  reason: "Short and long phrases side by side: the upper quartile nearly twice the lower [practice].",
  least: { notes: 24, phrases: 6, full: 2 },
  importance: 0.4,
  chance: { null: "moved in time", count: spreadOfLengths, than: "more" },
  find({ phrases, account }, threshold, least) {
    const { low, high } = quartiles(phrases);
    if (low < 1 || high / low < threshold) return null;
    const short = phrases.filter(({ notes }) => notes.length === low).slice(0, 1);
    const long = phrases.filter(({ notes }) => notes.length === high).slice(0, 1);
    const starts = [...short, ...long].flatMap(({ notes }) => notes.slice(0, 1));
    return {
      observed: high / low,
      strength: beyond(high / low, threshold, least.full),
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
});
