import { countInWords, placesInWords, shareInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule } from "../../rule.ts";
import { choruses } from "./choruses-reached.ts";
import { RESOLVING } from "./resolving-roles.ts";

export const outsideNotesResolved: Rule = {
  id: "outside-notes-resolved",
  heading: "harmonic awareness",
  kind: "works",
  measure: "share of notes outside the scale that lead by step into a chord tone",
  threshold: 0.75,
  reason: "Three in four: the ear takes them for direction, not for mistakes [practice].",
  least: { notes: 24 },
  importance: 0.6,
  chance: "pitches shuffled",
  find({ solo, runs }, threshold) {
    // A run passes through everything: what it touches on its way is neither outside playing nor resolved.
    const running = new Set(runs.flatMap(({ notes }) => ids(notes)));
    const outside = solo.filter((note) => note.role === "outside" && !running.has(note.id));
    if (outside.length < 4) return null;
    const led = outside.filter(
      (note) => note.target !== null || (note.lineRole !== null && RESOLVING.has(note.lineRole)),
    );
    const share = led.length / outside.length;
    if (share < threshold) return null;
    return {
      observed: share,
      strength: beyond(share, threshold, 0.25),
      evidence: ids(led),
      words: {
        share: shareInWords(share),
        count: countInWords(outside.length),
        places: placesInWords(led, choruses(solo)),
      },
    };
  },
  wording: [
    "Your chromatic notes go somewhere: {share} of the {count} step into a chord tone (hear {places}).",
    "{count} notes from outside the chord's scale are played, and {share} of them resolve by step.",
  ],
  practice: null,
};
