import type { AccountMotif } from "../account.ts";
import { callsAndAnswers, developmentOf, phrasesOf } from "./development.ts";
import { type MotifFamily, motifFamilies } from "./motif-families.ts";
import { type Occurrence, occurrencesOf } from "./occurrences.ts";
import { type MotifNote, type SoloLine, soloLine } from "./solo-line.ts";
import { symbolOf } from "./viewpoints.ts";

/** An idea that several takes share; each occurrence says in which take it is. */
export type SharedMotif = Omit<AccountMotif, "occurrences" | "development" | "answers"> & {
  readonly occurrences: readonly (Occurrence & { readonly take: string })[];
  /** Takes in which it is played, in the order given. */
  readonly takes: readonly string[];
};

/**
 * The ideas of a solo that mean something: patterns in six viewpoints that return more often than a Markov model of
 * the same take would have them, gathered into families with their near repeats, five to ten at most, the weightiest
 * first. Fewer, or none, where nothing stands out.
 *
 * @param notes solo notes in time order
 * @param _options kept for the caller's sake: nothing here is drawn at random
 */
export function findMotifs(notes: readonly MotifNote[], _options: { seed: number }): AccountMotif[] {
  const line = soloLine([notes]);
  const phrases = phrasesOf(line);
  return motifFamilies(line).map((idea, i) => {
    const occurrences = occurrencesOf(idea, line);
    return {
      ...headOf(idea, i),
      occurrences,
      development: developmentOf(occurrences, line),
      answers: callsAndAnswers(occurrences, phrases),
    };
  });
}

/**
 * The ideas of several takes together, over one suffix array of them all.
 *
 * @param takes each with its solo notes in time order
 */
export function findSharedMotifs(
  takes: readonly { readonly id: string; readonly notes: readonly MotifNote[] }[],
): SharedMotif[] {
  const line = soloLine(takes.map((take) => take.notes));
  return motifFamilies(line).map((idea, i) => {
    const names = idea.matches.map((match) => takes[takeAt(line, match.start)]!.id);
    return {
      ...headOf(idea, i),
      occurrences: occurrencesOf(idea, line).map((occurrence, k) => ({ ...occurrence, take: names[k]! })),
      takes: takes.map((take) => take.id).filter((id) => names.includes(id)),
    };
  });
}

function takeAt(line: SoloLine, place: number): number {
  let take = 0;
  while (take + 2 < line.takes.length && line.takes[take + 1]! <= place) take++;
  return take;
}

function headOf(idea: MotifFamily, index: number) {
  return {
    id: `m${index + 1}`,
    viewpoint: idea.viewpoint,
    pattern: idea.pattern.map((code) => symbolOf(code, idea.viewpoint)),
    length: idea.notes,
    expected: idea.expected,
    q: idea.q,
    coverage: idea.coverage,
    compactness: idea.compactness,
    weight: idea.weight,
    way: idea.way,
    openings: idea.openings,
  };
}
