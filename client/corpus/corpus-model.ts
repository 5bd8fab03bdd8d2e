/** One corpus, as it is looked at: what is chosen, all of it kept in the address, and what was read of it. */
import type { Failure, JobRow, RepeatedFile } from "../../server/contract/corpora.ts";
import type { CorpusSummary, MeasureSpreads, Vocabulary } from "../../server/contract/corpus-results.ts";
import type { Pattern } from "../../server/contract/pattern.ts";
import { capital, clock, count, countInWords } from "../../src/words/index.ts";
import { type Part, partOf } from "../shell/corpora.ts";
import { readPatternWords, VIEWPOINTS } from "../shell/ideas.ts";
import { CORPUS_MEASURES, scoreText } from "../views/corpus-measures.ts";

/** Empty where nothing is chosen. */
export interface CorpusChoice {
  /** The grouping. */
  readonly by: string;
  /** One of its groups. */
  readonly part: string;
  readonly take: string;
  /** Viewpoint of the ideas that are shown. */
  readonly kind: string;
  /** Viewpoint of the pattern that was looked for, and the pattern as it was typed. */
  readonly alike: string;
  readonly find: string;
}

export interface CorpusRead {
  /** All takes, by groups. */
  readonly whole: CorpusSummary;
  /** The takes that are meant. */
  readonly summary: CorpusSummary;
  readonly spreads: MeasureSpreads;
  readonly vocabulary: Vocabulary;
  readonly failures: readonly Failure[];
  readonly repeated: readonly RepeatedFile[];
}

export interface CorpusState {
  readonly choice: CorpusChoice;
  /** Null until it was read. */
  readonly read: CorpusRead | null;
  readonly reading: boolean;
  readonly refused: unknown;
}

type TakeSpread = MeasureSpreads["rows"][number];

const NAMES = ["by", "part", "take", "kind", "alike", "find"] as const;

export function openedAt(query: URLSearchParams): CorpusState {
  const [by, part, take, kind, alike, find] = NAMES.map((name) => query.get(name) ?? "");
  const choice = { by: by || "player", part: part!, take: take!, kind: kind!, alike: alike!, find: find! };
  return { choice, read: null, reading: false, refused: null };
}

/** The address that opens the page as it stands. */
export function corpusQuery({ choice }: CorpusState): string {
  return new URLSearchParams(
    NAMES.flatMap((name) => (choice[name] === "" ? [] : [[name, choice[name]]])),
  ).toString();
}

/** Which takes are meant: those of the chosen group, else all. */
export function partMeant({ choice }: CorpusState): Part {
  return partOf(choice.by, choice.part) ?? {};
}

export function choose(state: CorpusState, choice: Partial<CorpusChoice>): CorpusState {
  return { ...state, choice: { ...state.choice, ...choice } };
}

/** Another grouping has other groups. */
export function groupBy(state: CorpusState, by: string): CorpusState {
  return choose(state, { by, part: "" });
}

/** A sign that is pressed again lets go of what it chose; a group that is no set of takes cannot be chosen. */
export function pressPart(state: CorpusState, part: string): CorpusState {
  if (partOf(state.choice.by, part) === null) return state;
  return choose(state, { part: part === state.choice.part ? "" : part });
}

export function pressTake(state: CorpusState, take: string): CorpusState {
  return choose(state, { take: take === state.choice.take ? "" : take });
}

export function reading(state: CorpusState): CorpusState {
  return { ...state, reading: true };
}

/** An answer to an earlier choice is passed over. */
export function answered(state: CorpusState, to: CorpusChoice, read: CorpusRead): CorpusState {
  return isSameReading(state.choice, to) ? { ...state, read, reading: false, refused: null } : state;
}

export function corpusRefused(state: CorpusState, refused: unknown): CorpusState {
  return { ...state, reading: false, refused };
}

/** Whether both choices read the same from the service. */
export function isSameReading(a: CorpusChoice, b: CorpusChoice): boolean {
  return a.by === b.by && a.part === b.part && a.kind === b.kind;
}

/** The groups that can be looked at alone. */
export function groupsToChoose({ choice, read }: CorpusState): string[] {
  return (read?.whole.groups ?? [])
    .map(({ value }) => value)
    .filter((value) => partOf(choice.by, value) !== null);
}

/** "Nine takes by three players, 1,204 solo notes, 12:30 of playing"; empty until it was read. */
export function factsWords({ read }: CorpusState): string {
  if (read === null) return "";
  const { whole, summary } = read;
  if (whole.takes === 0) {
    return "No take has been analysed yet. Send some; what comes of them is drawn here.";
  }
  const by = summary.players > 0 ? ` by ${count(summary.players, "player")}` : "";
  const notes = summary.notes.toLocaleString("en");
  return `${capital(count(summary.takes, "take"))}${by}, ${notes} solo notes, ${clock(summary.seconds)} of playing`;
}

/** "Nine takes analysed, two could not be read, one was left out: the corpus has it already." */
export function endedWords({ done, failed, repeated }: Pick<JobRow, "done" | "failed" | "repeated">): string {
  const failures = failed > 0 ? `, ${countInWords(failed)} could not be read` : "";
  const again =
    repeated === 0
      ? ""
      : repeated === 1
        ? ", one was left out: the corpus has it already"
        : `, ${countInWords(repeated)} were left out: the corpus has them already`;
  return `${capital(count(done, "take"))} analysed${failures}${again}.`;
}

/** Files that were left out, by the take that counts in their place: its id, and their names in the order they came. */
export function repeatsByTake(repeated: readonly RepeatedFile[]): (readonly [string, readonly string[]])[] {
  const names = new Map<string, string[]>();
  for (const { take, fileName } of repeated) names.set(take, [...(names.get(take) ?? []), fileName]);
  return [...names];
}

/** The take that is pointed out; null when it is not among those that are meant. */
export function pointedOut({ choice, read }: CorpusState): TakeSpread | null {
  return read?.spreads.rows.find(({ take }) => take === choice.take) ?? null;
}

/** "swing 1.8, notes per bar 5.2 (stands apart, +2.9)" */
export function takeWords({ values, scores }: TakeSpread, limit: number): string {
  return CORPUS_MEASURES.flatMap(({ id, short, say }) => {
    const [value, score] = [values[id], scores[id]];
    if (value === null || value === undefined) return [];
    const apart = score !== null && score !== undefined && Math.abs(score) > limit;
    return [`${short} ${say(value)}${apart ? ` (stands apart, ${scoreText(score)})` : ""}`];
  }).join(", ");
}

export function nameOf({ title, player }: TakeSpread): string {
  return player ? `${title}, ${player}` : title;
}

/** The pattern that the address asks for; null when it asks for none. */
export function patternAsked({ choice }: CorpusState): Omit<Pattern, "notes"> | null {
  if (choice.find === "") return null;
  const viewpoint = VIEWPOINTS.find(({ id }) => id === choice.alike)?.id ?? "chromatic interval";
  return { viewpoint, symbols: readPatternWords(choice.find, viewpoint) };
}
