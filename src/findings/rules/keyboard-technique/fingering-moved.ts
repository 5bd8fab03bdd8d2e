import type { AccountMotif } from "../../../account.ts";
import { placesInWords, timesInWords } from "../../../words/index.ts";
import { between, ids, motifStarts } from "../../facts.ts";
import { beyond, type Rule, rule } from "../../rule.ts";
import { keyboardPlayed } from "./keyboard-played.ts";

/** Semitones. */
const OCTAVE = 12;

export const fingeringMoved: Rule = rule({
  id: "fingering-moved",
  heading: "keyboard technique",
  kind: "works",
  measure: "notes in a fingering that returns on other keys more often than chance",
  unit: "notes",
  threshold: 5,
  reason:
    "Four fingers return in most takes by chance alone (8 in 10 of generated ones); five and more are the hand's own way of developing an idea [practice].",
  least: { notes: 24, full: 6 },
  importance: 0.45,
  chance: "closed form",
  find(facts, threshold, least) {
    if (!keyboardPlayed(facts)) return null;
    const [best] = facts.account.motifs
      .filter(({ viewpoint, length }) => viewpoint === "finger" && length >= threshold)
      .map((motif) => ({ motif, moved: motif.occurrences.filter(isMoved) }))
      .filter(({ motif, moved }) => moved.length > 0 && !isScale(motif.pattern.map(Number)))
      .sort((a, b) => b.motif.length * b.moved.length - a.motif.length * a.moved.length);
    if (best === undefined) return null;
    const { motif, moved } = best;
    const starts = motifStarts(facts, motif);
    return {
      observed: motif.length,
      strength: beyond(motif.length + moved.length, threshold, least.full),
      evidence: ids(
        motif.occurrences
          .flatMap((one) => between(facts.solo, facts.place, one))
          .sort((one, other) => one.onset - other.onset),
      ),
      words: {
        fingers: motif.pattern.join(" "),
        times: timesInWords(motif.occurrences.length),
        places: placesInWords(starts, facts.account.alignment.choruses),
      },
    };
  },
  wording: [
    "The same fingers, {fingers}, come {times}, on other keys as well ({places}): the hand carries the idea, not only the ear.",
  ],
  practice: null,
});

/** True for the same fingers on other keys; an octave away the keys are the same again. */
function isMoved({ relation, transposition }: AccountMotif["occurrences"][number]): boolean {
  return relation === "same fingering" && (transposition === null || transposition % OCTAVE !== 0);
}

/** Neighbouring fingers one after the other, up or down: five-finger practice rather than an idea. */
export function isScale(fingers: readonly number[]): boolean {
  const steps = fingers.slice(1).map((finger, i) => finger - fingers[i]!);
  const turns = steps.filter((step, i) => i > 0 && step !== steps[i - 1]).length;
  return steps.every((step) => Math.abs(step) === 1) && turns <= 1;
}
