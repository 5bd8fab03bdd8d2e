import { placesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule } from "../../rule.ts";

export const ideaInAnotherKey: Rule = {
  id: "idea-in-another-key",
  heading: "melodic and motivic development",
  kind: "practise",
  measure: "notes of the longest phrase that lies in the middle of the take's phrase lengths",
  threshold: 4,
  reason:
    "Four notes are enough to carry to another key; an idea is owned when it can be played anywhere [practice].",
  least: { notes: 24, phrases: 3 },
  importance: 0.15,
  find({ phrases, account }, threshold) {
    const sorted = [...phrases].sort((a, b) => a.notes.length - b.notes.length);
    const middle = sorted[Math.floor(sorted.length / 2)];
    if (middle === undefined || middle.notes.length < threshold) return null;
    return {
      strength: beyond(middle.notes.length, threshold - 1, 6),
      evidence: ids(middle.notes),
      words: { places: placesInWords(middle.notes.slice(0, 1), account.alignment.choruses) },
    };
  },
  wording: [
    "The phrase that starts in {places} is worth owning: carry it to two other keys with the same fingers, slowly.",
  ],
  practice: {
    kind: "motif to every placement",
    title: "Your phrase, other keys",
    text: "The same fingers on every place of the form; then print this sheet in two other keys and play it there.",
  },
};
