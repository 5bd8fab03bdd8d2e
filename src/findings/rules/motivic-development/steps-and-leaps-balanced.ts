import type { AccountNote } from "../../../account.ts";
import { shareInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import type { Rule } from "../../rule.ts";

const intervals = (notes: readonly AccountNote[]) =>
  notes.slice(1).map((note, i) => note.pitch - notes[i]!.pitch);

export const stepsAndLeapsBalanced: Rule = {
  id: "steps-and-leaps-balanced",
  heading: "melodic and motivic development",
  kind: "works",
  measure: "share of intervals inside phrases larger than a whole step",
  threshold: 0.3,
  reason: "Between three and six in ten, a line has both flow and corners [practice].",
  least: { notes: 24 },
  importance: 0.4,
  chance: "pitches shuffled",
  find({ phrases }, threshold) {
    const all = phrases.flatMap(({ notes }) => intervals(notes));
    if (all.length < 20) return null;
    const skips = all.filter((step) => Math.abs(step) > 2).length / all.length;
    const thirds = phrases.flatMap(({ notes }) =>
      notes.slice(1).filter((n, i) => Math.abs(n.pitch - notes[i]!.pitch) > 2),
    );
    if (skips < threshold || skips > 0.6) return null;
    return {
      observed: skips,
      strength: 1 - Math.min(1, Math.abs(skips - 0.45) / 0.15),
      evidence: ids(thirds.slice(0, 12)),
      words: { share: shareInWords(skips) },
    };
  },
  wording: [
    "Steps and skips are in balance: {share} of the moves are a third or more, so the line has corners to hold on to.",
  ],
  practice: null,
};
