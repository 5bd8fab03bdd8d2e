import { placesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule } from "../../rule.ts";
import { MELODIC } from "./melodic-motifs.ts";

export const noMotifKept: Rule = {
  id: "no-motif-kept",
  heading: "melodic and motivic development",
  kind: "practise",
  measure: "solo notes without any motif of three notes or more that returns more often than chance",
  threshold: 48,
  reason: "In six bars of eighths an idea has had time to return [practice].",
  least: { notes: 48, phrases: 4 },
  importance: 0.85,
  find({ account, solo, phrases }, threshold) {
    if (solo.length < threshold) return null;
    if (account.motifs.some((motif) => motif.length >= 3 && MELODIC.includes(motif.viewpoint))) return null;
    const first = phrases.find(({ notes }) => notes.length >= 4) ?? phrases[0];
    if (first === undefined) return null;
    return {
      strength: beyond(solo.length, threshold, 100),
      evidence: ids(first.notes),
      words: { places: placesInWords(first.notes.slice(0, 1), account.alignment.choruses) },
    };
  },
  wording: [
    "There are many ideas and none of them comes back. Take the one in {places}, play it again on the next chord, and change only its end.",
    "Each phrase brings something new. Choose one you like, perhaps the one in {places}, and give it three chances before you leave it.",
  ],
  practice: {
    kind: "motif to every placement",
    title: "One idea, every place",
    text: "An idea of your own, moved with the same fingers to each placement of the form.",
  },
};
