import { placesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule, rule } from "../../rule.ts";

export const noMotifKept: Rule = rule({
  id: "no-motif-kept",
  heading: "melodic and motivic development",
  kind: "notice",
  measure: "solo notes without any motif of three notes or more that returns more often than chance",
  unit: "notes",
  threshold: 48,
  reason: "In six bars of eighths an idea has had time to return [practice].",
  least: { notes: 48, phrases: 4, full: 100, sample: 4 },
  importance: 0.85,
  chance: "fact",
  find({ account, solo, phrases }, threshold, least) {
    if (solo.length < threshold) return null;
    // Not while anything comes back in any viewpoint, fingers and rhythm too.
    if (account.motifs.length > 0) return null;
    const first = phrases.find(({ notes }) => notes.length >= least.sample) ?? phrases[0];
    if (first === undefined) return null;
    return {
      observed: solo.length,
      strength: beyond(solo.length, threshold, least.full),
      evidence: ids(first.notes),
      words: { places: placesInWords(first.notes.slice(0, 1), account.alignment.choruses) },
    };
  },
  wording: [
    "No idea was found that comes back more often than chance would bring it. One to try with: take the notes in {places}, play them again on the next chord, and change only the end.",
    "No group of notes returns more often than chance would bring it. Choose one you like, perhaps that in {places}, and give it three chances before you leave it.",
  ],
  practice: {
    kind: "motif to every placement",
    title: "One idea, every place",
    text: "An idea of your own, moved with the same fingers to each placement of the form.",
  },
});
