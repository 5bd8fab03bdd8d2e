import { placesInWords, timesInWords } from "../../../words/index.ts";
import { beyond, type Rule, rule } from "../../rule.ts";
import { keyboardPlayed } from "./keyboard-played.ts";

export const slidesTaken: Rule = rule({
  id: "slides-taken",
  heading: "keyboard technique",
  kind: "works",
  measure: "slides from a black key into the white key above it",
  unit: "times",
  threshold: 2,
  reason: "Twice shows it is in the hand [practice].",
  least: { notes: 16, full: 5 },
  importance: 0.6,
  chance: { null: "pitches shuffled", count: ({ slides }) => slides, than: "more" },
  find(facts, threshold, least) {
    if (!keyboardPlayed(facts)) return null;
    const { taken } = facts.account.handFit.slides;
    if (taken.length < threshold) return null;
    const notes = taken.map((one) => facts.byId.get(one.to)).filter((note) => note !== undefined);
    return {
      observed: taken.length,
      strength: beyond(taken.length, threshold - 1, least.full),
      evidence: taken.flatMap((one) => [one.from, one.to]),
      words: {
        times: timesInWords(taken.length),
        places: placesInWords(notes, facts.account.alignment.choruses),
      },
    };
  },
  wording: ["You slide off a black key into the white one beside it, {times} ({places}): it sounds sung."],
  practice: null,
});
