import { placesInWords, shareInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule } from "../../rule.ts";

export const allSteps: Rule = {
  id: "all-steps",
  heading: "melodic and motivic development",
  kind: "practise",
  measure: "share of intervals inside phrases that are steps",
  threshold: 0.8,
  reason: "Four of five moves by step: the line has no corners [practice].",
  least: { notes: 32 },
  importance: 0.6,
  chance: "pitches shuffled",
  find({ phrases, account }, threshold) {
    const steps = phrases.flatMap(({ notes }) =>
      notes.slice(1).filter((note, i) => {
        const size = Math.abs(note.pitch - notes[i]!.pitch);
        return size === 1 || size === 2;
      }),
    );
    const all = phrases.reduce((sum, { notes }) => sum + notes.length - 1, 0);
    if (all < 24 || steps.length / all < threshold) return null;
    return {
      observed: steps.length / all,
      strength: beyond(steps.length / all, threshold, 0.2),
      evidence: ids(steps.slice(0, 16)),
      words: {
        share: shareInWords(steps.length / all),
        places: placesInWords(steps, account.alignment.choruses, 2),
      },
    };
  },
  wording: [
    "{share} of your moves are steps. Let a phrase open with a third or a fifth, as if it called someone across the street.",
  ],
  practice: {
    kind: "call and answer",
    title: "Open with a skip",
    text: "Answer each given bar with a phrase whose first move is a third or more.",
  },
};
