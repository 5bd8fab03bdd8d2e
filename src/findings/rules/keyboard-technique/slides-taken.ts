import { placesInWords, timesInWords } from "../../../words/index.ts";
import { beyond, type Rule } from "../../rule.ts";

export const slidesTaken: Rule = {
  id: "slides-taken",
  heading: "keyboard technique",
  kind: "works",
  measure: "slides from a black key into the white key above it",
  threshold: 2,
  reason: "Twice shows it is in the hand [practice].",
  least: { notes: 16 },
  importance: 0.6,
  chance: "pitches shuffled",
  find(facts, threshold) {
    const { taken } = facts.account.handFit.slides;
    if (taken.length < threshold) return null;
    const notes = taken.map((one) => facts.byId.get(one.to)).filter((note) => note !== undefined);
    return {
      observed: taken.length,
      strength: beyond(taken.length, threshold - 1, 5),
      evidence: taken.flatMap((one) => [one.from, one.to]),
      words: {
        times: timesInWords(taken.length),
        places: placesInWords(notes, facts.account.alignment.choruses),
      },
    };
  },
  wording: [
    "You slide off the black key into the note above, {times} ({places}): it sounds sung, and it belongs to this instrument alone.",
  ],
  practice: null,
};
