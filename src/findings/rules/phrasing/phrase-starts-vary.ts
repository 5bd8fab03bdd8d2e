import { countInWords, placesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule, rule } from "../../rule.ts";
import { startsOf } from "./endings.ts";
import { favouriteStart } from "./favourite-start.ts";

export const phraseStartsVary: Rule = rule({
  id: "phrase-starts-vary",
  heading: "phrasing and shape",
  kind: "works",
  measure: "largest share of phrases that start on the same beat of the bar",
  unit: "share",
  threshold: 0.35,
  reason: "With eight places an eighth apart, a third on the favourite one is well spread [practice].",
  least: { notes: 24, phrases: 6, full: -0.2, sample: 6 },
  importance: 0.5,
  chance: {
    null: "moved in time",
    count: ({ phrases }) => favouriteStart(startsOf(phrases)).share,
    than: "less",
  },
  find({ phrases, account }, threshold, least) {
    const starts = startsOf(phrases);
    const { share, count } = favouriteStart(starts);
    if (count < least.sample || share > threshold) return null;
    return {
      observed: share,
      strength: beyond(share, threshold, least.full),
      evidence: ids(starts),
      words: { count: countInWords(count), places: placesInWords(starts, account.alignment.choruses) },
    };
  },
  wording: [
    "Your {count} phrases start on many different beats, more evenly than chance would spread them ({places}).",
  ],
  practice: null,
});
