import { countInWords, placesInWords } from "../../../words/index.ts";
import { beyond, type Rule } from "../../rule.ts";

export const shiftsComeLate: Rule = {
  id: "shifts-come-late",
  heading: "keyboard technique",
  kind: "practise",
  measure: "chord changes after which the hand still stands in the last chord's place",
  threshold: 3,
  reason: "Once or twice may be meant; three times is late [practice].",
  least: { notes: 32 },
  importance: 0.6,
  chance: "pitches shuffled",
  find(facts, threshold) {
    const { late } = facts.account.handFit.shifts;
    const notes = late.map((id) => facts.byId.get(id)).filter((note) => note !== undefined);
    const places = new Set(notes.map((note) => `${note.chorus}:${note.bar}`));
    if (places.size < threshold) return null;
    return {
      observed: places.size,
      strength: beyond(places.size, threshold, 6),
      evidence: [...late],
      words: {
        times: countInWords(places.size),
        places: placesInWords(notes, facts.account.alignment.choruses),
      },
    };
  },
  wording: [
    "In {times} bars the chord has moved and the hand has not yet ({places}). Shift in the rest before the change, with the eyes first.",
  ],
  practice: {
    kind: "shared placements",
    title: "There before the chord",
    text: "Rest on beat four, shift in the rest, play on the new chord.",
  },
};
