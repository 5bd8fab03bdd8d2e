import type { HandFit } from "../account.ts";
import type { Finger, PlacedNote } from "../take/index.ts";
import type { HandLine, PlacementRun } from "./hand-line.ts";

/** Lengths of figures sought, longest first. Shorter ones are everywhere on five fingers. */
const LENGTHS = [10, 9, 8, 7, 6, 5, 4] as const;

/** At most this many are told. */
const MOST = 20;

interface Figure {
  readonly start: number;
  readonly place: number;
}

/**
 * The same fingering, four notes or more with three fingers at least, in two or more placements of one shape: what
 * makes a motif movable. Longest first; a figure inside a longer one that moves with it is not told again.
 */
export function movedFingerings(notes: readonly PlacedNote[], lines: readonly HandLine[]): HandFit["moved"] {
  const moved: HandFit["moved"] = [];
  const told = new Set<number>();
  const runs = lines.flatMap((line, l) => line.runs.map((run) => fingeredRun(line, l, run)));
  for (const length of LENGTHS) {
    for (const [pattern, figures] of figuresOf(runs, length)) {
      const fresh = figures.filter(({ start }) => !told.has(start));
      if (new Set(fresh.map(({ place }) => place)).size < 2) continue;
      moved.push({
        firstNotes: fresh.map(({ start }) => notes[start]!.id),
        fingers: fingersOf(pattern, length),
      });
      for (const { start } of fresh) for (let k = 0; k < length; k++) told.add(start + k);
    }
  }
  return moved
    .sort((a, b) => b.firstNotes.length * b.fingers.length - a.firstNotes.length * a.fingers.length)
    .slice(0, MOST);
}

interface FingeredRun {
  readonly notes: readonly number[];
  /** Parallel to the notes; 0 where none is known. */
  readonly fingers: readonly number[];
  readonly place: number;
}

function fingeredRun(line: HandLine, l: number, { notes, state }: PlacementRun): FingeredRun {
  return {
    notes,
    fingers: notes.map((index) => line.played.get(index)!.finger ?? 0),
    place: l * 1e6 + state,
  };
}

/** Figures of one length by their fingers (as digits of one number, by sixes), without overlaps of a figure with itself. */
function figuresOf(runs: readonly FingeredRun[], length: number): Map<number, Figure[]> {
  const figures = new Map<number, Figure[]>();
  const lastAt = new Map<number, number>();
  for (const { notes, fingers, place } of runs) {
    lastAt.clear();
    for (let k = 0; k + length <= notes.length; k++) {
      if (!isFigure(fingers, k, length)) continue;
      let pattern = 0;
      for (let n = k; n < k + length; n++) pattern = pattern * SIX + fingers[n]!;
      if (k - (lastAt.get(pattern) ?? -length) < length) continue;
      lastAt.set(pattern, k);
      const figure = { start: notes[k]!, place };
      const list = figures.get(pattern);
      if (list === undefined) figures.set(pattern, [figure]);
      else list.push(figure);
    }
  }
  return figures;
}

/** Fingers, and none. */
const SIX = 6;

function fingersOf(pattern: number, length: number): Finger[] {
  const fingers: number[] = new Array(length);
  for (let k = length - 1, rest = pattern; k >= 0; k--, rest = Math.floor(rest / SIX))
    fingers[k] = rest % SIX;
  return fingers as Finger[];
}

/** Three fingers at least, all of them known. */
function isFigure(fingers: readonly number[], start: number, length: number): boolean {
  let used = 0;
  for (let k = start; k < start + length; k++) used |= 1 << fingers[k]!;
  const count = (used & 2) / 2 + (used & 4) / 4 + (used & 8) / 8 + (used & 16) / 16 + (used & 32) / 32;
  return (used & 1) === 0 && count >= 3;
}
