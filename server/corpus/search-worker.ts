/**
 * The thread in which corpora are searched. It keeps the lines of a corpus as they are stored, opens one when a hit
 * or a near match lies in it, and sorts the text of a viewpoint when that is first asked for.
 */

import type { MotifViewpoint } from "../../src/account.ts";
import {
  type HitInContext,
  inContext,
  type MotifIndex,
  type MotifPattern,
  searchAll,
} from "../../src/motif/index.ts";
import { joinedText, type SortedText, sortText } from "../../src/motif/symbol-text.ts";
import { codesOf, OF_STEPS } from "../../src/motif/viewpoints.ts";
import { melodicLine, Problem } from "../../src/take/index.ts";
import { type ProblemFacts, problemFacts } from "../problem-facts.ts";
import { decodeLine, type LineRow } from "./line.ts";

export interface StoredLine {
  readonly take: string;
  readonly line: Uint8Array;
}

export type SearchMessage =
  /** Lines of a corpus, in parts: the first one takes the place of what was there, the last one opens it. */
  | {
      readonly load: string;
      readonly lines: readonly StoredLine[];
      readonly first: boolean;
      readonly last: boolean;
    }
  | {
      readonly corpus: string;
      readonly pattern: MotifPattern;
      readonly maxEdits: number;
      readonly limit: number;
      /** Takes to search; null for all. */
      readonly takes: readonly string[] | null;
    };

export type SearchReply =
  | { readonly ok: true; readonly hits: readonly HitInContext[]; readonly found: number }
  | {
      readonly ok: false;
      readonly problem: ProblemFacts;
    };

/** Lines kept open: enough that the hits of one answer are opened once. */
const OPEN_LINES = 512;
/** Viewpoints of a corpus whose texts are kept sorted; the one that was asked for longest ago goes first. */
const OPEN_TEXTS = 2;
/** Corpora kept in memory; the one that was asked for longest ago goes first. */
const OPEN_CORPORA = 2;

interface OpenCorpus {
  readonly index: MotifIndex;
  /** Place in the index by the take's id. */
  readonly places: ReadonlyMap<string, number>;
}

const corpora = new Map<string, OpenCorpus>();
const arriving = new Map<string, StoredLine[]>();

export default function run(message: SearchMessage): SearchReply {
  return "load" in message ? load(message) : answer(message);
}

function load(message: Extract<SearchMessage, { load: string }>): SearchReply {
  if (message.first) {
    corpora.delete(message.load);
    arriving.set(message.load, []);
  }
  const lines = arriving.get(message.load)!;
  for (const line of message.lines) lines.push(line);
  if (!message.last) return { ok: true, hits: [], found: 0 };
  arriving.delete(message.load);
  const places = new Map(lines.map(({ take }, i) => [take, i]));
  corpora.set(message.load, { index: lazyIndex(lines), places });
  for (const corpus of [...corpora.keys()].slice(0, -OPEN_CORPORA)) corpora.delete(corpus);
  return { ok: true, hits: [], found: 0 };
}

function answer(message: Exclude<SearchMessage, { load: string }>): SearchReply {
  try {
    const open = corpora.get(message.corpus);
    if (open === undefined) throw new Problem("not-loaded", "The corpus is not loaded", null, "Try again.");
    const { index, places } = open;
    const wanted =
      message.takes === null ? null : new Set(message.takes.map((take) => places.get(take) ?? -1));
    const { found, hits } = searchAll(index, message.pattern, {
      maxEdits: message.maxEdits,
      limit: message.limit,
      within: wanted === null ? () => true : (take) => wanted.has(take),
    });
    return { ok: true, hits: hits.map((hit) => inContext(hit, index.takes[places.get(hit.take)!]!)), found };
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
    return { ok: false, problem: problemFacts(problem) };
  }
}

/** Codes in half the room where they fit, as nearly all do. */
type ShortRow = Int16Array | Int32Array;

function shortened(row: Int32Array): ShortRow {
  return row.every((code) => code >= -32_768 && code < 32_768) ? Int16Array.from(row) : row;
}

/** An index whose takes and lines are opened when they are looked at. */
function lazyIndex(lines: readonly StoredLine[]): MotifIndex {
  const open = new Map<number, LineRow[]>();
  const rowsOf = (i: number): LineRow[] => {
    const known = open.get(i);
    if (known !== undefined) return known;
    const rows = decodeLine(lines[i]!.line);
    open.set(i, rows);
    if (open.size > OPEN_LINES) open.delete(open.keys().next().value!);
    return rows;
  };
  const steps = (i: number) => melodicLine(rowsOf(i));
  const starts = [0];
  const pitches = lines.map((_, i) => {
    const line = steps(i);
    starts.push(starts[i]! + line.length);
    return Uint8Array.from(line, (step) => step.note.pitch);
  });
  const texts = new Map<MotifViewpoint, { readonly text: SortedText; readonly rows: readonly ShortRow[] }>();
  return {
    takes: lazyList(lines.length, (i) => ({ id: lines[i]!.take, notes: rowsOf(i) })),
    lines: lazyList(lines.length, steps),
    starts,
    pitchesOf: (take) => pitches[take]!,
    codesOf: (take, viewpoint) => Int32Array.from(texts.get(viewpoint)!.rows[take]!),
    text: (viewpoint) => {
      const known = texts.get(viewpoint);
      if (known !== undefined) {
        texts.delete(viewpoint);
        texts.set(viewpoint, known);
        return known.text;
      }
      if (texts.size >= OPEN_TEXTS) texts.delete(texts.keys().next().value!);
      const rows = lines.map((_, i) =>
        codesOf(
          steps(i).map((step) => step.note),
          viewpoint,
        ),
      );
      const text = sortText(joinedText(rows, starts, OF_STEPS[viewpoint], null));
      texts.set(viewpoint, { text, rows: rows.map(shortened) });
      return text;
    },
  };
}

function lazyList<T>(length: number, at: (i: number) => T): readonly T[] {
  return new Proxy(new Array<T>(length), {
    get: (target, key) =>
      typeof key === "string" && /^\d+$/.test(key) && Number(key) < length
        ? at(Number(key))
        : Reflect.get(target, key),
    has: (target, key) =>
      typeof key === "string" && /^\d+$/.test(key) ? Number(key) < length : key in target,
  });
}
