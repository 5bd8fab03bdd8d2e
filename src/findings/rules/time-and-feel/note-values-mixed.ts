import type { AccountNote } from "../../../account.ts";
import { countInWords } from "../../../words/index.ts";
import { ids } from "../../facts.ts";
import { beyond, type Rule } from "../../rule.ts";

export const noteValuesMixed: Rule = {
  id: "note-values-mixed",
  heading: "time and feel",
  kind: "notice",
  measure: "number of different note lengths that each make up a tenth of the steps inside phrases",
  threshold: 3,
  reason: "Three lengths in real use are heard as a rhythm rather than as a stream [practice].",
  least: { notes: 24 },
  importance: 0.45,
  chance: "fact",
  find({ phrases }, threshold) {
    const counts = new Map<number, AccountNote[]>();
    let steps = 0;
    for (const { notes } of phrases) {
      for (let i = 1; i < notes.length; i++) {
        const [a, b] = [notes[i - 1]!, notes[i]!];
        if (a.position === null || b.position === null) continue;
        const length = Math.round((b.position - a.position) * 12) / 12;
        counts.set(length, [...(counts.get(length) ?? []), b]);
        steps++;
      }
    }
    if (steps < 20) return null;
    const used = [...counts.values()].filter((notes) => notes.length / steps >= 0.1);
    if (used.length < threshold) return null;
    return {
      observed: used.length,
      strength: beyond(used.length, threshold - 1, 3),
      evidence: ids(used.flatMap((notes) => notes.slice(0, 3)).sort((a, b) => a.onset - b.onset)),
      words: { count: countInWords(used.length) },
    };
  },
  wording: ["Inside the phrases {count} different note lengths each make up a tenth of the steps or more."],
  practice: null,
};
