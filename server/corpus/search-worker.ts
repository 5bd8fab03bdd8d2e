/**
 * A thread in which a stripe of each corpus is searched. It keeps lines as a search reads them, in a few bytes a note;
 * what a hit is told by (bars, pitches around it) comes with the question for it.
 */
import {
  findMatches,
  hitOf,
  inContext,
  type Match,
  type MotifPattern,
  type PackedText,
  packedText,
} from "../../src/motif/index.ts";
import { melodicLine, Problem } from "../../src/take/index.ts";
import { type SerialisedProblem, serialiseProblem } from "../serialise-problem.ts";
import { type ToldHit, told } from "./spell-hits.ts";
import { decodeLine, packStored } from "./stored-line.ts";

/** A take's line as it is stored: packed, or, of an analysis from before lines were packed, whole. */
export interface StoredLine {
  readonly take: string;
  /** Takes are searched in this order, and those of one place by their ids. */
  readonly place: string;
  readonly packed: Uint8Array | null;
  readonly line: Uint8Array | null;
}

/** A match, by the id of its take. */
export interface TakeMatch extends Omit<Match, "take"> {
  readonly take: string;
}

export interface LoadMessage {
  readonly task: "load";
  readonly corpus: string;
  /** Parts come one after the other: the first takes the place of what was there, the last opens the corpus. */
  readonly lines: readonly StoredLine[];
  readonly first: boolean;
  readonly last: boolean;
}

export interface FindMessage {
  readonly task: "find";
  readonly corpus: string;
  readonly pattern: MotifPattern;
  readonly maxEdits: number;
  readonly limit: number;
  /** Takes to search; null for all. */
  readonly takes: readonly string[] | null;
}

export interface TellMessage {
  readonly task: "tell";
  readonly matches: readonly TakeMatch[];
  /** Whole lines of their takes; the matches of a take without one are left out. */
  readonly lines: readonly { readonly take: string; readonly line: Uint8Array }[];
}

export type SearchMessage = LoadMessage | FindMessage | TellMessage;

/** What each message is answered with, or the problem that there was. */
export interface SearchReplies {
  load: null;
  find: { readonly found: number; readonly matches: readonly TakeMatch[] };
  tell: readonly ToldHit[];
}

export type SearchReply<Task extends keyof SearchReplies> =
  | { readonly ok: true; readonly value: SearchReplies[Task] }
  | { readonly ok: false; readonly problem: SerialisedProblem };

/** Corpora kept in memory; the one that was loaded longest ago goes first. */
const OPEN_CORPORA = 2;

interface OpenCorpus {
  readonly text: PackedText;
  readonly takes: readonly string[];
  /** Place in the text by the take's id. */
  readonly places: ReadonlyMap<string, number>;
}

const corpora = new Map<string, OpenCorpus>();
const arriving = new Map<string, { take: string; place: string; line: Uint8Array }[]>();

export default function run(message: SearchMessage): SearchReply<SearchMessage["task"]> {
  try {
    switch (message.task) {
      case "load":
        return { ok: true, value: load(message) };
      case "find":
        return { ok: true, value: find(message) };
      case "tell":
        return { ok: true, value: tell(message) };
    }
  } catch (error) {
    const problem =
      error instanceof Problem
        ? error
        : new Problem(
            "search-failed",
            `The search did not end: ${(error as Error).message}`,
            null,
            "Try another pattern.",
          );
    return { ok: false, problem: serialiseProblem(problem) };
  }
}

function load({ corpus, lines, first, last }: LoadMessage): null {
  if (first) {
    corpora.delete(corpus);
    arriving.set(corpus, []);
  }
  const part = arriving.get(corpus)!;
  for (const { take, place, packed, line } of lines) {
    part.push({ take, place, line: packed ?? packStored(line!) });
  }
  if (!last) return null;
  arriving.delete(corpus);
  part.sort((a, b) => compare(a.place, b.place) || compare(a.take, b.take));
  const takes = part.map(({ take }) => take);
  const places = new Map(takes.map((take, i) => [take, i]));
  corpora.set(corpus, { text: packedText(part.map(({ line }) => line)), takes, places });
  for (const old of [...corpora.keys()].slice(0, -OPEN_CORPORA)) corpora.delete(old);
  return null;
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

function find({ corpus, pattern, maxEdits, limit, takes: meant }: FindMessage): SearchReplies["find"] {
  const open = corpora.get(corpus);
  if (open === undefined) throw new Problem("not-loaded", "The corpus is not loaded", null, "Try again.");
  const { text, takes, places } = open;
  const wanted = meant === null ? null : new Set(meant.map((take) => places.get(take) ?? -1));
  const { found, matches } = findMatches(text, pattern, {
    maxEdits,
    limit,
    ...(wanted === null ? {} : { within: (take) => wanted.has(take) }),
  });
  return { found, matches: matches.map((match) => ({ ...match, take: takes[match.take]! })) };
}

function tell({ matches, lines }: TellMessage): readonly ToldHit[] {
  const takes = new Map(lines.map(({ take, line }) => [take, { id: take, notes: decodeLine(line) }]));
  const melodies = new Map([...takes].map(([id, { notes }]) => [id, melodicLine(notes)]));
  return matches.flatMap((match) => {
    const take = takes.get(match.take);
    if (take === undefined) return [];
    return [told(inContext(hitOf(match, take, melodies.get(take.id)!), take), take.notes)];
  });
}
