import type { AccountMotif, AccountNote, Analysis, RhythmSummary } from "../../../src/account.ts";
import { type Case, eighths, type Over, type Written } from "../account-builder.ts";

/** A take that makes a rule speak, and one that falls just short of it. */
export interface RuleCase {
  readonly fires: Case;
  readonly near: Case;
}

export type RuleCases = Readonly<Record<string, RuleCase>>;

type Labels = Omit<Partial<AccountNote>, "beats" | "pitch">;

/** Five notes with corners and no run. */
export const PHRASE = [65, 69, 67, 72, 69] as const;

/** Phrases of five eighths, six beats apart; `each` gives labels by phrase and note. */
export function talk(count = 8, each: (phrase: number, note: number) => Labels = () => ({})): Written[] {
  return Array.from({ length: count }, (_, k) => eighths(k * 6, PHRASE, (i) => each(k, i))).flat();
}

/** Phrases of the given pitches at the given beats. */
export function phrasesAt(starts: readonly number[], pitches: readonly number[] = PHRASE): Written[] {
  return starts.flatMap((at) => eighths(at, pitches));
}

/** The first `count` of the notes carry the labels. */
export function first(notes: readonly Written[], count: number, labels: Labels): Written[] {
  return notes.map((note, i) => (i < count ? { ...note, ...labels } : note));
}

/** Three eighths in each of the twelve bars; `each` gives labels by bar (from 1) and note. */
export function barByBar(each: (bar: number, note: number) => Labels = () => ({})): Written[] {
  return Array.from({ length: 12 }, (_, k) => eighths(k * 4, [65, 69, 67], (i) => each(k + 1, i))).flat();
}

export function rhythm(part: Partial<RhythmSummary>): Over {
  return { rhythm: part };
}

export function swing(q1: number, median: number, q3: number): NonNullable<RhythmSummary["swing"]> {
  return { median, q1, q3, beats: 20, tempo: 120, short: 180 };
}

export function timing(q1: number, median: number, q3: number): NonNullable<RhythmSummary["timing"]> {
  return { against: "grid", median, q1, q3, notes: 40, threshold: 6, heard: true, drift: null };
}

export function handFit(part: Partial<Analysis["handFit"]>): Over {
  return { handFit: part };
}

type Occurrence = AccountMotif["occurrences"][number];

export function occurrence(firstNote: number, length: number, part: Partial<Occurrence> = {}): Occurrence {
  return {
    firstNote: `n${firstNote}`,
    lastNote: `n${firstNote + length - 1}`,
    chorus: 1,
    bar: 1,
    beat: 1,
    relation: "exact",
    change: "",
    transposition: 0,
    notes: length,
    phrase: null,
    ...part,
  };
}

export function motif(length: number, occurrences: readonly Occurrence[]): AccountMotif {
  return {
    id: "m1",
    viewpoint: "chromatic interval",
    pattern: [],
    length,
    occurrences: [...occurrences],
    expected: 0.1,
    q: 0.01,
    coverage: 0.3,
    compactness: 1,
    weight: 1,
    development: { firstHeard: { chorus: 1, bar: 1 }, byChorus: [], carriedOver: [], droppedFrom: null },
    answers: [],
  };
}
