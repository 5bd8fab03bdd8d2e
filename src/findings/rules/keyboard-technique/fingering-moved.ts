import { placesInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule } from "../../rule.ts";

export const fingeringMoved: Rule = {
  id: "fingering-moved",
  heading: "keyboard technique",
  kind: "works",
  measure: "notes in the longest fingering that is played in two places",
  threshold: 5,
  reason:
    "Four fingers return in most takes by chance alone (8 in 10 of generated ones); five and more are the hand's own way of developing an idea [practice].",
  least: { notes: 24 },
  importance: 0.45,
  chance: "pitches shuffled",
  find(facts, threshold) {
    const moved = facts.account.handFit.moved.filter(
      (one) => one.fingers.length >= threshold && one.firstNotes.length >= 2 && !isScale(one.fingers),
    );
    if (moved.length === 0) return null;
    const best = [...moved].sort(
      (a, b) => b.firstNotes.length * b.fingers.length - a.firstNotes.length * a.fingers.length,
    )[0]!;
    const notes = best.firstNotes.map((id) => facts.byId.get(id)).filter((note) => note !== undefined);
    const evidence = notes.flatMap((note) => {
      const start = facts.place.get(note.id);
      return start === undefined ? [] : ids(facts.solo.slice(start, start + best.fingers.length));
    });
    return {
      observed: best.fingers.length + best.firstNotes.length,
      strength: beyond(best.fingers.length + best.firstNotes.length, threshold + 1, 6),
      evidence: [...new Set(evidence)],
      words: {
        fingers: best.fingers.join(" "),
        places: placesInWords(notes, facts.account.alignment.choruses),
      },
    };
  },
  wording: [
    "The fingering {fingers} returns in another place of the keyboard ({places}): the hand carries the idea, not only the ear.",
  ],
  practice: null,
};

/** Neighbouring fingers one after the other, up or down: five-finger practice rather than an idea. */
export function isScale(fingers: readonly number[]): boolean {
  const steps = fingers.slice(1).map((finger, i) => finger - fingers[i]!);
  const turns = steps.filter((step, i) => i > 0 && step !== steps[i - 1]).length;
  return steps.every((step) => Math.abs(step) === 1) && turns <= 1;
}
