/** Line roles that aim at a chord tone to come: enclosure and approach. */
import type { Line } from "./line.ts";
import {
  type Found,
  inScale,
  interval,
  isChordTone,
  isStep,
  isStronger,
  returnsByStep,
  sameDirection,
} from "./line-motion.ts";

/** How far from its target (semitones) a note may stand to enclose it. */
const ENCLOSING = 2;

/** Within how many quarter-note beats an enclosure of three notes must reach its target. [practice] */
const LONG_ENCLOSURE = 1.5;

const NEAR = 1e-6;

/**
 * Enclosure: two notes, one above and one below a following chord tone, each within two semitones of it, in either
 * order; across a bar line and into a new chord as well. Each leads on within a beat: a longer note stands by
 * itself. One of the sides may take two half steps towards the target (F, D, D sharp, E), all within a beat and a
 * half. All enclosing notes are labelled and share the target. When two of them leave the very note that they return
 * to, they are a double neighbour.
 * Source: Coker; Ligon, Connecting Chords with Linear Harmony [memory].
 */
export function enclosure(line: Line, i: number): Found | null {
  // Nearest target first: as last note of a figure, then as one before the last, then as the first of three.
  for (let ahead = 1; ahead <= 3; ahead++) {
    for (const size of [2, 3]) {
      const first = i + ahead - size;
      if (ahead > size || first < 0) continue;
      if (encloses(line, first, size)) {
        const target = first + size;
        const left = line.previous[first] ?? null;
        const returns = size === 2 && left !== null && interval(line, left, target) === 0;
        return { target, manner: returns ? "double neighbour" : null };
      }
    }
  }
  return null;
}

/**
 * Approach: into a chord tone that falls on a stronger place or right after. Chromatic: a half step from outside the
 * scale, whatever led to it. Diatonic: a scale step, from a note that is itself leapt to, repeated or turned to.
 * A double approach takes two half steps or two scale steps in one direction.
 * Not an approach is what the textbooks name otherwise by the note behind it: a diatonic note that only fills in a
 * step motion is passing, one that goes back to the pitch it came from is a neighbour, and one that is leapt to on a
 * stronger place than its resolution is an appoggiatura.
 * Source: Coker; Ligon; Levine, The Jazz Theory Book [memory].
 */
export function approach(line: Line, i: number): Found | null {
  const after = line.after[i] ?? null;
  if (isChordTone(line, i) || after === null || !isStep(line, i, after)) return null;
  const before = line.before[i] ?? null;
  if (returnsByStep(line, before, i, after)) return null;
  const isStepped = before !== null && isStep(line, before, i);
  const isFilling = isStepped && sameDirection(line, before, i, after);
  return isChordTone(line, after)
    ? singleApproach(line, i, after, isStepped, isFilling)
    : doubleApproach(line, i, after, isFilling);
}

function singleApproach(
  line: Line,
  i: number,
  target: number,
  isStepped: boolean,
  isFilling: boolean,
): Found | null {
  if (!isStepped && isStronger(line, i, target)) return null;
  if (inScale(line, i, line.notes[i]!.note.span) || inScale(line, i, line.notes[target]!.note.span)) {
    return isFilling ? null : { target, manner: "diatonic" };
  }
  return Math.abs(interval(line, i, target)) === 1 ? { target, manner: "chromatic" } : null;
}

function doubleApproach(line: Line, i: number, after: number, isFilling: boolean): Found | null {
  const target = line.after[after] ?? null;
  if (isFilling || target === null || !isChordTone(line, target)) return null;
  if (!isStep(line, after, target) || !sameDirection(line, i, after, target)) return null;
  if (Math.abs(interval(line, i, target)) === 2) return { target, manner: "double chromatic" };
  const isDiatonic = [i, after].every((at) => inScale(line, at, line.notes[at]!.note.span));
  return isDiatonic ? { target, manner: "double diatonic" } : null;
}

/** True when the `size` notes from `first` on enclose the note after them. */
function encloses(line: Line, first: number, size: number): boolean {
  const target = first + size;
  if (target >= line.notes.length || !isChordTone(line, target)) return false;
  const distances: number[] = [];
  for (let at = first; at < target; at++) {
    if (line.next[at] === null) return false;
    if (isLong(line, at)) return false;
    const distance = interval(line, target, at);
    if (Math.abs(distance) > ENCLOSING) return false;
    distances.push(distance);
  }
  const sides = distances.map(Math.sign);
  if (!sides.includes(1) || !sides.includes(-1)) return false;
  if (size === 2) return true;
  // Of three notes the two on one side close in on the target, without delay.
  if (beatsBetween(line, first, target) > LONG_ENCLOSURE + NEAR) return false;
  const [a, b, c] = distances as [number, number, number];
  return closesIn(a, b) || closesIn(b, c);
}

/** True when the next note comes more than a beat later. */
function isLong(line: Line, i: number): boolean {
  const beat = Math.max(1, 4 / line.harmony.chart.meter.unit);
  return beatsBetween(line, i, i + 1) > beat + NEAR;
}

/** Quarter-note beats from one onset to another; 0 in rubato, so that nothing is long there. */
function beatsBetween(line: Line, from: number, to: number): number {
  return (line.notes[to]!.note.position ?? 0) - (line.notes[from]!.note.position ?? 0);
}

function closesIn(far: number, near: number): boolean {
  return Math.sign(far) === Math.sign(near) && Math.abs(near) === 1;
}
