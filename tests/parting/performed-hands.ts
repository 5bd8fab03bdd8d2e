/**
 * Human performances parted: nobody wrote down which hand played which note, so that only what needs no truth is told:
 * how much is called doubtful, what a softer or a higher playing of the same notes changes, and what no hand can hold.
 */
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { readTake } from "../../src/ingest/index.ts";
import { doubtfulPassages } from "../../src/parting/doubtful.ts";
import { partByPath } from "../../src/parting/part-hands.ts";
import { type Note, STRUCK_TOGETHER } from "../../src/take/index.ts";
import { partedRows } from "./parted-rows.ts";

/** Performances with both hands on one track, beside the checkout; never part of it. */
export const PERFORMANCES = new URL("../../../shared/data/performances/", import.meta.url);
export const hasPerformances = existsSync(PERFORMANCES);

/** Counts of notes. */
export interface PerformedHands {
  readonly notes: number;
  readonly doubtful: number;
  /** In another hand when the same notes are played with .6 of their loudness, and a fourth higher. */
  readonly softer: number;
  readonly higher: number;
  /** Struck together in one hand with a key that lies beyond its reach. */
  readonly beyond: number;
}

/** Semitones beyond which one hand cannot strike: thumb and little finger reach 15 (MaxPrac, Parncutt et al. 1997). */
const WIDEST = 16;
const SOFTER = 0.6;
const FOURTH = 5;

/** One row a performance. */
export function performedHands(): (PerformedHands & { readonly name: string })[] {
  return readdirSync(PERFORMANCES)
    .filter((file) => file.endsWith(".mid"))
    .map((file) => {
      const { notes } = readTake(readFileSync(new URL(file, PERFORMANCES)), { name: file });
      return { name: file, ...performed(notes) };
    });
}

export function totalOf(rows: readonly PerformedHands[]): PerformedHands {
  const sum = (key: keyof PerformedHands) => rows.reduce((all, row) => all + row[key], 0);
  return {
    notes: sum("notes"),
    doubtful: sum("doubtful"),
    softer: sum("softer"),
    higher: sum("higher"),
    beyond: sum("beyond"),
  };
}

function performed(notes: readonly Note[]): PerformedHands {
  const { right, margin } = partByPath(notes);
  const differing = (others: readonly Note[]) => {
    const other = partByPath(others).right;
    return notes.filter((_, i) => other[i] !== right[i]).length;
  };
  const rows = partedRows(notes, right, margin);
  return {
    notes: notes.length,
    doubtful: doubtfulPassages(rows).reduce((sum, { first, last }) => sum + last - first + 1, 0),
    softer: differing(
      notes.map((note) => ({ ...note, velocity: Math.max(1, Math.round(SOFTER * note.velocity)) })),
    ),
    higher: differing(notes.map((note) => ({ ...note, pitch: note.pitch + FOURTH }))),
    beyond: notes.filter((note, i) => isBeyond(notes, right, i, note)).length,
  };
}

function isBeyond(notes: readonly Note[], right: ArrayLike<number>, i: number, note: Note): boolean {
  const beside = (k: number) =>
    notes[k] !== undefined && Math.abs(notes[k].onset - note.onset) <= STRUCK_TOGETHER;
  const far = (k: number) => right[k] === right[i] && Math.abs(notes[k]!.pitch - note.pitch) > WIDEST;
  for (let k = i - 1; beside(k); k--) if (far(k)) return true;
  for (let k = i + 1; beside(k); k++) if (far(k)) return true;
  return false;
}
