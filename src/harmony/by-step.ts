/** Line roles of the textbooks that are told by how a foreign note is reached and left: by step or by leap. */
import { isPause, type JoinedLine } from "./joined-line.ts";
import {
  type Found,
  interval,
  isChordTone,
  isStep,
  isStronger,
  returnsByStep,
  sameDirection,
  turnOf,
} from "./line-motion.ts";

/** A note is clearly longer than another from so many times its length on. [practice] */
const LONGER = 1.5;

/**
 * Passing: step in, step out, same direction, on a note that is no chord tone. In a run the target is the next chord
 * tone on the way, else the next note.
 * Source: Kostka & Payne [memory].
 */
export function passing(line: JoinedLine, i: number): Found | null {
  const before = line.before[i] ?? null;
  const after = line.after[i] ?? null;
  if (isChordTone(line, i) || before === null || after === null) return null;
  if (!isStep(line, before, i) || !isStep(line, i, after) || !sameDirection(line, before, i, after))
    return null;
  const half = Math.abs(interval(line, before, i)) === 1 && Math.abs(interval(line, i, after)) === 1;
  return { target: endOfRun(line, i, after), manner: half ? "chromatic" : "diatonic" };
}

/**
 * Neighbour: step out and back to the same pitch, on a note that is no chord tone. So is each foreign note of a turn
 * that steps out to both sides before it comes back (a double neighbour).
 * Source: Kostka & Payne [memory].
 */
export function neighbour(line: JoinedLine, i: number): Found | null {
  if (isChordTone(line, i)) return null;
  const before = line.before[i] ?? null;
  const after = line.after[i] ?? null;
  if (after !== null && returnsByStep(line, before, i, after)) {
    return { target: after, manner: interval(line, i, after) < 0 ? "upper" : "lower" };
  }
  const turn = turnOf(line, i);
  return turn !== null && isChordTone(line, turn.target)
    ? { target: turn.target, manner: "double neighbour" }
    : null;
}

/**
 * Appoggiatura: leapt to, on a stronger place than its resolution, resolved by step into a chord tone. A note after
 * a breath is counted as leapt to, since nothing prepares it [practice]. In rubato the longer note is the stronger.
 * Source: Kostka & Payne [memory].
 */
export function appoggiatura(line: JoinedLine, i: number): Found | null {
  const before = line.before[i] ?? null;
  const after = line.after[i] ?? null;
  if (isChordTone(line, i) || after === null || !isChordTone(line, after)) return null;
  if (before !== null && isStep(line, before, i)) return null;
  if (!isStep(line, i, after) || !isStronger(line, i, after)) return null;
  return { target: after, manner: before === null ? "unprepared" : null };
}

/**
 * Escape: stepped to, left by leap, on a note that is no chord tone. One that is longer than the note before it and
 * on a stronger place is what the line goes to, and escapes nothing; nor does one that is left standing before a rest
 * of a beat or more [practice].
 * Source: Kostka & Payne [memory], who ask besides that the leap turns back; here either direction counts.
 */
export function escapeTone(line: JoinedLine, i: number): Found | null {
  const before = line.before[i] ?? null;
  const after = line.after[i] ?? null;
  if (isChordTone(line, i) || before === null || after === null) return null;
  if (!isStep(line, before, i) || isStep(line, i, after)) return null;
  if (isPause(line.notes[i]!.note, line.notes[i + 1]!.note)) return null;
  return isStressed(line, i, before) ? null : { target: null, manner: null };
}

/** True when a note is clearly longer than the one before it and on a stronger place. */
function isStressed(line: JoinedLine, i: number, before: number): boolean {
  const [own, other] = [i, before].map((at) => line.notes[at]!.note.beats ?? line.notes[at]!.note.duration);
  return isStronger(line, i, before) && own! >= LONGER * other!;
}

/** The first chord tone that is reached by going on in steps in one direction, or `after` when there is none. */
function endOfRun(line: JoinedLine, i: number, after: number): number {
  let at = after;
  let from = i;
  while (!isChordTone(line, at)) {
    const further = line.after[at] ?? null;
    if (further === null || !isStep(line, at, further) || !sameDirection(line, from, at, further))
      return after;
    from = at;
    at = further;
  }
  return at;
}
