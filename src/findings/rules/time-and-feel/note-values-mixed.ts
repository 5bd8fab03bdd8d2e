import type { AccountNote } from "../../../account.ts";
import { countInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule, rule } from "../../rule.ts";

/** Lengths are told apart by a twelfth of a beat, fine enough for triplets and sixteenths. */
const PARTS = 12;

export const noteValuesMixed: Rule = rule({
  id: "note-values-mixed",
  heading: "time and feel",
  kind: "notice",
  measure: "number of different note lengths that each make up a fifth of the steps inside phrases",
  unit: "note lengths",
  threshold: 3,
  reason:
    "Three lengths in real use are heard as a rhythm rather than as a stream [practice]; a fifth of the steps each, since most solos touch three lengths (three open solos in four reach a tenth).",
  least: { notes: 24, full: 3, sample: 20, share: 0.2, shown: 3 },
  importance: 0.45,
  chance: "fact",
  find({ phrases }, threshold, least) {
    const counts = new Map<number, AccountNote[]>();
    let steps = 0;
    for (const { notes } of phrases) {
      for (let i = 1; i < notes.length; i++) {
        const [a, b] = [notes[i - 1]!, notes[i]!];
        if (a.position === null || b.position === null) continue;
        const length = Math.round((b.position - a.position) * PARTS) / PARTS;
        counts.set(length, [...(counts.get(length) ?? []), b]);
        steps++;
      }
    }
    if (steps < least.sample) return null;
    const used = [...counts.values()].filter((notes) => notes.length / steps >= least.share);
    if (used.length < threshold) return null;
    return {
      observed: used.length,
      strength: beyond(used.length, threshold - 1, least.full),
      evidence: ids(used.flatMap((notes) => notes.slice(0, least.shown)).sort((a, b) => a.onset - b.onset)),
      words: { count: countInWords(used.length) },
    };
  },
  wording: ["Inside the phrases {count} different note lengths each make up a fifth of the steps or more."],
  practice: null,
});
