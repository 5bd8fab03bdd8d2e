import type { HandFit } from "../account.ts";
import type { Finger, PlacedNote } from "../take/index.ts";
import type { HandLine } from "./hand-line.ts";

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
  for (const length of LENGTHS) {
    for (const [pattern, figures] of figuresOf(lines, length)) {
      const fresh = figures.filter(({ start }) => !told.has(start));
      if (new Set(fresh.map(({ place }) => place)).size < 2) continue;
      moved.push({
        firstNotes: fresh.map(({ start }) => notes[start]!.id),
        fingers: [...pattern].map(Number) as Finger[],
      });
      for (const { start } of fresh) for (let k = 0; k < length; k++) told.add(start + k);
    }
  }
  return moved
    .sort((a, b) => b.firstNotes.length * b.fingers.length - a.firstNotes.length * a.fingers.length)
    .slice(0, MOST);
}

/** Figures of one length by their fingers, without overlaps of a figure with itself. */
function figuresOf(lines: readonly HandLine[], length: number): Map<string, Figure[]> {
  const figures = new Map<string, Figure[]>();
  lines.forEach((line, l) => {
    for (const run of line.runs) {
      if (run.notes.length < length) continue;
      const fingers = run.notes.map((index) => line.played.get(index)!.finger ?? 0).join("");
      const lastAt = new Map<string, number>();
      for (let k = 0; k + length <= fingers.length; k++) {
        const pattern = fingers.slice(k, k + length);
        if (!isFigure(pattern) || k - (lastAt.get(pattern) ?? -length) < length) continue;
        lastAt.set(pattern, k);
        const list = figures.get(pattern) ?? [];
        figures.set(pattern, list);
        list.push({ start: run.notes[k]!, place: l * 1e6 + run.state });
      }
    }
  });
  return figures;
}

/** Three fingers at least, all of them known. */
function isFigure(pattern: string): boolean {
  let used = 0;
  for (let k = 0; k < pattern.length; k++) used |= 1 << (pattern.charCodeAt(k) - ZERO);
  const count = (used & 2) / 2 + (used & 4) / 4 + (used & 8) / 8 + (used & 16) / 16 + (used & 32) / 32;
  return (used & 1) === 0 && count >= 3;
}

const ZERO = "0".charCodeAt(0);
