/** Line roles that aim at a chord tone to come: enclosure and approach. */
import type { PlacedNote } from "../take/index.ts";
import { isRest, type JoinedLine } from "./joined-line.ts";
import {
  type Found,
  inScale,
  interval,
  isArpeggio,
  isChordTone,
  isStep,
  isStronger,
  returnsByStep,
  sameDirection,
  turnOf,
} from "./line-motion.ts";
import { LEVELS } from "./strength.ts";

/** How far from its target (semitones) a note may stand to enclose it. */
const ENCLOSING = 2;

/** Notes of the longest figure, and within how many quarter-note beats it must reach its target. [practice] */
const LONGEST = 3;
const LONG_ENCLOSURE = 1.5;

/** A note is clearly shorter than another when it lasts at most this share of it. [practice] */
const SHORTER = 0.75;

const NEAR = 1e-6;

/**
 * Enclosure: the two notes right before a chord tone, one above and one below it in either order, each a half or a
 * whole step from it; across a bar line and into a new chord as well.
 * - At least one of them is foreign to its chord, and neither is an arpeggio note, a chord tone reached or left by
 *   leap within its chord: that one has a role of its own (F A flat G over G7).
 * - The line leans on the target and on neither side: the last note before it is weaker or shorter than it, or no
 *   stronger where the first is weaker or shorter. Where the target's own place is weak and the last note a chord tone,
 *   as good a place to rest as the target, the first must be lighter too. Each leads on within a beat; no rest lies between.
 * - One of the sides may take two half steps towards the target (F, D, D sharp, E), all within a beat and a half.
 * - A turn around the target, leaving the pitch that it returns to, is a pair of neighbours (`by-step.ts`) unless the
 *   target comes anew on a stronger place.
 * Source: Coker; Ligon, Connecting Chords with Linear Harmony [memory].
 */
export function enclosure(line: JoinedLine, i: number): Found | null {
  // Nearest target first: as last note of a figure, then as one before the last, then as the first of three.
  let target: number | null = i;
  for (let ahead = 1; ahead <= LONGEST; ahead++) {
    target = line.after[target] ?? null;
    if (target === null) return null;
    // Told apart before the figure is laid out: most notes stand nowhere near a chord tone to come.
    if (!isChordTone(line, target) || !isBeside(line, i, target)) continue;
    for (let size = Math.max(2, ahead); size <= LONGEST; size++) {
      const figure = figureAround(line, i, ahead, size);
      if (figure !== null && encloses(line, figure.sides, figure.target)) {
        return enclosing(line, figure.sides[0]!, figure.target);
      }
    }
  }
  return null;
}

/** True when a note lies near enough to a target to stand on one of its sides. */
function isBeside(line: JoinedLine, i: number, target: number): boolean {
  const distance = Math.abs(interval(line, target, i));
  return distance > 0 && distance <= ENCLOSING;
}

/** The `size` notes, over repeated ones, of which the `i`-th is the `ahead`-th from the last, and the note after them. */
function figureAround(
  line: JoinedLine,
  i: number,
  ahead: number,
  size: number,
): { readonly sides: readonly number[]; readonly target: number } | null {
  const sides = [i];
  for (let k = size; k > ahead; k--) {
    const before = line.before[sides[0]!] ?? null;
    if (before === null) return null;
    sides.unshift(before);
  }
  while (sides.length <= size) {
    const after = line.after[sides.at(-1)!] ?? null;
    if (after === null) return null;
    sides.push(after);
  }
  return { sides: sides.slice(0, size), target: sides[size]! };
}

function enclosing(line: JoinedLine, first: number, target: number): Found {
  const left = line.before[first] ?? null;
  const returns = left !== null && interval(line, left, target) === 0;
  return { target, manner: returns ? "double neighbour" : null };
}

/**
 * Approach: into a chord tone that falls on a stronger place or right after. Chromatic: a half step from outside the
 * scale, whatever led to it. Diatonic: a scale step, from a note that is itself leapt to, repeated or turned to.
 * A double approach takes two half steps or two scale steps in one direction.
 * Not an approach is what the textbooks name otherwise by the note behind it: a diatonic note that only fills in a
 * step motion is passing, one that goes back to the pitch it came from is a neighbour (a turn to both sides too), and one that is leapt to on a
 * stronger place than its resolution is an appoggiatura; not so the blue third that is pushed up into the third: it
 * stands for the third wherever it is struck [practice].
 * Source: Coker; Ligon; Levine, The Jazz Theory Book [memory].
 */
export function approach(line: JoinedLine, i: number): Found | null {
  const after = line.after[i] ?? null;
  if (isChordTone(line, i) || after === null || !isStep(line, i, after)) return null;
  const before = line.before[i] ?? null;
  if (returnsByStep(line, before, i, after) || isInTurn(line, i)) return null;
  const isStepped = before !== null && isStep(line, before, i);
  const isFilling = isStepped && sameDirection(line, before, i, after);
  return isChordTone(line, after)
    ? singleApproach(line, i, after, isStepped, isFilling)
    : doubleApproach(line, i, after, isFilling);
}

/** True when the note is half of a turn around a chord tone. */
function isInTurn(line: JoinedLine, i: number): boolean {
  const turn = turnOf(line, i);
  return turn !== null && isChordTone(line, turn.target);
}

function singleApproach(
  line: JoinedLine,
  i: number,
  target: number,
  isStepped: boolean,
  isFilling: boolean,
): Found | null {
  if (!isStepped && isStronger(line, i, target) && !isPushedUp(line, i, target)) return null;
  if (inScale(line, i, line.notes[i]!.note.span) || inScale(line, i, line.notes[target]!.note.span)) {
    return isFilling ? null : { target, manner: "diatonic" };
  }
  if (Math.abs(interval(line, i, target)) === 1) return { target, manner: "chromatic" };
  // An altered tension is a tone of the altered scale: b13 and #9 go into their chord by whole steps as well.
  return line.notes[i]!.sounding.altered && !isFilling ? { target, manner: "diatonic" } : null;
}

/** True for a blue note that rises into its target by a half step. */
function isPushedUp(line: JoinedLine, i: number, target: number): boolean {
  return line.notes[i]!.sounding.role === "blue" && interval(line, i, target) === 1;
}

function doubleApproach(line: JoinedLine, i: number, after: number, isFilling: boolean): Found | null {
  const target = line.after[after] ?? null;
  if (isFilling || target === null || !isChordTone(line, target)) return null;
  if (!isStep(line, after, target) || !sameDirection(line, i, after, target)) return null;
  if (Math.abs(interval(line, i, target)) === 2) return { target, manner: "double chromatic" };
  const isDiatonic = [i, after].every((at) => inScale(line, at, line.notes[at]!.note.span));
  return isDiatonic ? { target, manner: "double diatonic" } : null;
}

/** True when two or three notes of the line enclose the one after them. */
function encloses(line: JoinedLine, sides: readonly number[], target: number): boolean {
  if (!isChordTone(line, target) || !surround(line, sides, target)) return false;
  if (sides.every((at) => isChordTone(line, at))) return false;
  if (sides.some((at) => isArpeggioNote(line, at) || !leadsOn(line, at))) return false;
  if (sides.length === LONGEST && beatsBetween(line, sides[0]!, target) > LONG_ENCLOSURE + NEAR) return false;
  return !sides.some((at) => isInTurn(line, at)) && leansOn(line, sides, target);
}

/**
 * True when notes lie on both sides of the target, all within a whole step. Of three the two on one side stand
 * together and close in by half steps.
 */
function surround(line: JoinedLine, sides: readonly number[], target: number): boolean {
  const distances = sides.map((at) => interval(line, target, at));
  if (distances.some((distance) => distance === 0 || Math.abs(distance) > ENCLOSING)) return false;
  const [a, b, c] = distances as [number, number, number?];
  if (c === undefined) return a * b < 0;
  return a * c < 0 && (closesIn(a, b) || closesIn(b, c));
}

function closesIn(far: number, near: number): boolean {
  return far === 2 * near && Math.abs(near) === 1;
}

/** A chord tone that is reached or left by leap within its own chord. */
function isArpeggioNote(line: JoinedLine, i: number): boolean {
  if (!isChordTone(line, i)) return false;
  const [before, after] = [line.before[i] ?? null, line.after[i] ?? null];
  return (before !== null && isArpeggio(line, before, i)) || (after !== null && isArpeggio(line, i, after));
}

/** True when the next note comes within a beat and without a rest. */
function leadsOn(line: JoinedLine, i: number): boolean {
  const beat = Math.max(1, 4 / line.harmony.chart.meter.unit);
  return beatsBetween(line, i, i + 1) <= beat + NEAR && !isRest(line.notes[i]!.note, line.notes[i + 1]!.note);
}

/** Quarter-note beats from one onset to another; 0 in rubato, so that nothing is long there. */
function beatsBetween(line: JoinedLine, from: number, to: number): number {
  return (line.notes[to]!.note.position ?? 0) - (line.notes[from]!.note.position ?? 0);
}

/** True when the line leans on the target and not on the notes around it. */
function leansOn(line: JoinedLine, sides: readonly number[], target: number): boolean {
  const [first, last] = [sides[0]!, sides.at(-1)!];
  const isWeak = line.notes[target]!.strength < LEVELS.halfBar;
  if (isWeak && isChordTone(line, last) && !isLighter(line, first, target)) return false;
  if (isLighter(line, last, target)) return true;
  return !isStronger(line, last, target) && isLighter(line, first, target);
}

/** True when a note stands on a weaker place than its target or is clearly shorter. */
function isLighter(line: JoinedLine, i: number, target: number): boolean {
  const [side, goal] = [line.notes[i]!.note, line.notes[target]!.note];
  return isStronger(line, target, i) || lengthOf(side) <= SHORTER * lengthOf(goal) + NEAR;
}

/** Length in quarter-note beats; in rubato in seconds. */
function lengthOf(note: PlacedNote): number {
  return note.beats ?? note.duration;
}
