import { placesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule, rule } from "../../rule.ts";

export const restsFew: Rule = rule({
  id: "rests-few",
  heading: "phrasing and shape",
  kind: "practise",
  measure: "share of the solo's time in which it rests",
  unit: "share",
  threshold: 0.12,
  reason: "Under an eighth of the time: half a bar in four, less than a breath for each phrase [practice].",
  least: { notes: 32, full: -0.12, none: 0.03, tenth: 0.08 },
  importance: 0.85,
  chance: "fact",
  find({ account, phrases }, threshold, least) {
    const { rests } = account.rhythm;
    if (rests > threshold) return null;
    const longest = [...phrases].sort((a, b) => b.phrase.seconds - a.phrase.seconds)[0];
    const notes = longest?.notes ?? [];
    return {
      observed: rests,
      strength: beyond(rests, threshold, least.full),
      evidence: ids(notes),
      words: {
        share:
          rests < least.none ? "next to none" : rests < least.tenth ? "less than a tenth" : "about a tenth",
        places: placesInWords(notes.slice(0, 1), account.alignment.choruses) || "the first bar",
      },
    };
  },
  wording: [
    "{share} of the solo is rest. Play two bars, count two bars: start where your longest phrase starts, in {places}.",
    "There is much to hear and little time to take it in: {share} of the solo is rest. Breathe out audibly after each phrase and do not play until you have breathed in; begin at {places}.",
  ],
  practice: {
    kind: "rests",
    title: "Two bars on, two bars off",
    text: "Play only in the bars that carry notes; the left hand or the click carries the others.",
  },
});
