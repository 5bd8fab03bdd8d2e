import { countInWords, placesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule } from "../../rule.ts";
import { choruses } from "./choruses-reached.ts";
import { RESOLVING } from "./resolving-roles.ts";

export const outsideNotesLeftHanging: Rule = {
  id: "outside-notes-left-hanging",
  heading: "harmonic awareness",
  kind: "practise",
  measure: "notes outside the scale that do not lead anywhere, for each hundred notes",
  threshold: 6,
  reason: "About one note in sixteen, two bars of eighths: often enough to be heard as a habit [practice].",
  least: { notes: 24 },
  importance: 0.65,
  chance: "pitches shuffled",
  find({ solo }, threshold) {
    const hanging = solo.filter(
      (note) =>
        note.role === "outside" &&
        note.target === null &&
        !(note.lineRole !== null && RESOLVING.has(note.lineRole)),
    );
    const rate = (100 * hanging.length) / solo.length;
    if (hanging.length < 3 || rate < threshold) return null;
    return {
      observed: rate,
      strength: beyond(rate, threshold, 10),
      evidence: ids(hanging),
      words: { times: countInWords(hanging.length), places: placesInWords(hanging, choruses(solo)) },
    };
  },
  wording: [
    "{times} notes from outside the chord are left hanging ({places}). Keep the surprise, and finish it: one more step takes it home.",
  ],
  practice: {
    kind: "approach notes",
    title: "A half step home",
    text: "Into each chord tone from a half step below, then from above, chord by chord.",
  },
};
