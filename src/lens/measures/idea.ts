/** One idea through a chorus. */
import type { AccountMotif } from "../../account.ts";
import { between, type Facts } from "../../findings/facts.ts";
import { melodic } from "../../findings/rules/motivic-development/melodic-motifs.ts";
import type { Reading } from "../reading.ts";

type Occurrence = AccountMotif["occurrences"][number];

export function ideaInOneChorus(facts: Facts): Reading {
  const occurrences = mostInOneChorus(facts);
  return { value: occurrences.length, notes: notesOf(facts, occurrences), open: [] };
}

/** Bars from the first to the last time, both counted, of the chorus's bars. */
export function ideaThroughChorus(facts: Facts): Reading {
  const occurrences = mostInOneChorus(facts);
  const among = facts.account.chart.bars.length;
  if (occurrences.length < 2) return { value: 0, counted: { of: 0, among }, notes: [], open: [] };
  const bars = occurrences.map(({ bar }) => Math.max(1, bar));
  const of = Math.max(...bars) - Math.min(...bars) + 1;
  return { value: of / among, counted: { of, among }, notes: notesOf(facts, occurrences), open: [] };
}

/** Of all ideas and choruses, the times of that idea which one chorus holds most of; among equals the farthest apart. */
function mostInOneChorus(facts: Facts): readonly Occurrence[] {
  const groups = melodic(facts).flatMap((motif) => {
    const byChorus = new Map<number, Occurrence[]>();
    for (const one of motif.occurrences) byChorus.set(one.chorus, [...(byChorus.get(one.chorus) ?? []), one]);
    return [...byChorus.values()];
  });
  const span = (group: readonly Occurrence[]) => {
    const bars = group.map(({ bar }) => bar);
    return Math.max(...bars) - Math.min(...bars);
  };
  return groups.sort((a, b) => b.length - a.length || span(b) - span(a))[0] ?? [];
}

function notesOf(facts: Facts, occurrences: readonly Occurrence[]) {
  return occurrences.flatMap((one) => between(facts.solo, facts.place, one));
}
