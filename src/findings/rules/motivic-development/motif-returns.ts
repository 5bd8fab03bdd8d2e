import type { AccountNote } from "../../../account.ts";
import { countInWords, placesInWords, timesInWords } from "../../../words/index.ts";
import { type Facts, ids, motifStarts } from "../../facts.ts";
import { beyond, type Rule, rule } from "../../rule.ts";
import { melodic, notesOf } from "./melodic-motifs.ts";

export const motifReturns: Rule = rule({
  id: "motif-returns",
  heading: "melodic and motivic development",
  kind: "works",
  measure: "occurrences of one motif of four notes or more",
  unit: "times",
  threshold: 3,
  reason:
    "Once is an event, twice an echo, three times an idea [practice]; kept only when chance would not give it, and when it makes up a twelfth of the notes, more than six open solos in ten; of more than four notes in five it is a loop.",
  least: { notes: 24, full: 5, named: 4, coverage: 0.08, most: 0.8 },
  importance: 0.95,
  chance: "closed form",
  find(facts, threshold, least) {
    const motif = melodic(facts).find(
      (one) =>
        one.occurrences.length >= threshold && one.coverage >= least.coverage && one.coverage <= least.most,
    );
    if (motif === undefined) return null;
    const starts = motifStarts(facts, motif);
    return {
      observed: motif.occurrences.length,
      strength: beyond(motif.occurrences.length + motif.length / 2, threshold + 1, least.full),
      evidence: ids(notesOf(facts, motif)),
      words: {
        length: countInWords(motif.length),
        idea: ideaInWords(facts, starts[0]!, motif.length),
        times: timesInWords(motif.occurrences.length),
        places: placesInWords(starts, facts.account.alignment.choruses, least.named),
      },
    };
  },
  wording: [
    "An idea of {length} notes, at first {idea}, is heard {times} ({places}). You stay with it long enough for a listener to know it again.",
    "You state something and you keep it: the same {length}-note idea, at first {idea}, is heard {times}, in {places}.",
  ],
  practice: null,
});

/** Names of an idea's notes where it begins: "Eb F Ab"; long ones are broken off. */
function ideaInWords({ solo }: Facts, first: AccountNote, length: number): string {
  const from = solo.indexOf(first);
  const names = solo
    .slice(from, from + Math.min(length, MOST_NAMES))
    .map(({ spelling }) => spelling.replace(/-?\d+$/, ""));
  return `${names.join(" ")}${length > MOST_NAMES ? " ..." : ""}`;
}

/** Names of an idea that are read at a glance. [practice] */
const MOST_NAMES = 6;
