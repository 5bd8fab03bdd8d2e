import { countInWords, placesInWords } from "../../../words/index.ts";
import { beyond, type Rule, rule } from "../../rule.ts";
import { keyboardPlayed } from "./keyboard-played.ts";

export const shiftsComeLate: Rule = rule({
  id: "shifts-come-late",
  heading: "keyboard technique",
  kind: "notice",
  measure: "chord changes after which the hand still stands in the last chord's place",
  unit: "times",
  threshold: 3,
  reason: "Once or twice may be meant; three times is late [practice].",
  least: { notes: 32, full: 6 },
  importance: 0.6,
  chance: "fact",
  onChords: true,
  find(facts, threshold, least) {
    if (!keyboardPlayed(facts)) return null;
    const { late } = facts.account.handFit.shifts;
    const notes = late.map((id) => facts.byId.get(id)).filter((note) => note !== undefined);
    const places = new Set(notes.map((note) => `${note.chorus}:${note.bar}`));
    if (places.size < threshold) return null;
    return {
      observed: places.size,
      strength: beyond(places.size, threshold, least.full),
      evidence: [...late],
      words: {
        times: countInWords(places.size),
        places: placesInWords(notes, facts.account.alignment.choruses),
      },
    };
  },
  wording: [
    "In {times} bars the hand still stands in the place of the chord before ({places}). To try: shift in the rest before the change.",
  ],
  practice: {
    kind: "shared placements",
    title: "There before the chord",
    text: "Rest on beat four, shift in the rest, play on the new chord.",
  },
});
