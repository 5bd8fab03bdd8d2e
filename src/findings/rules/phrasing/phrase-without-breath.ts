import { placesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule, rule } from "../../rule.ts";

export const phraseWithoutBreath: Rule = rule({
  id: "phrase-without-breath",
  heading: "phrasing and shape",
  kind: "practise",
  measure: "longest phrase in seconds",
  unit: "seconds",
  threshold: 12,
  reason: "Longer than a wind player's comfortable breath in mid-phrase, about 8 to 10 seconds [practice].",
  least: { notes: 32, full: 12, sample: 16 },
  importance: 0.6,
  chance: "fact",
  find({ phrases, account }, threshold, least) {
    const longest = [...phrases].sort((a, b) => b.phrase.seconds - a.phrase.seconds)[0];
    if (longest === undefined || longest.phrase.seconds < threshold || longest.notes.length < least.sample)
      return null;
    return {
      observed: longest.phrase.seconds,
      strength: beyond(longest.phrase.seconds, threshold, least.full),
      evidence: ids(longest.notes),
      words: {
        seconds: String(Math.round(longest.phrase.seconds)),
        places: placesInWords(longest.notes.slice(0, 1), account.alignment.choruses),
      },
    };
  },
  wording: [
    "The phrase that starts in {places} goes on for {seconds} seconds. Play it while you breathe out; where the breath ends, the phrase ends.",
  ],
  practice: {
    kind: "rests",
    title: "One breath, one phrase",
    text: "No phrase longer than one breath, and a full breath between two.",
  },
});
