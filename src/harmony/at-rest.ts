/** Line roles of notes that lead nowhere: at home in the chord, a colour in their own right, or free. */
import type { JoinedLine } from "./joined-line.ts";
import { type Found, interval, isChordTone, isStep, sameDirection } from "./line-motion.ts";

/**
 * Chord tone: root, third, fifth or seventh of the chord, or what stands in for it: the sixth on a sixth chord, the
 * fourth on a suspended one.
 * Source: Kostka & Payne [memory]; for the stand-ins Levine, The Jazz Theory Book [memory].
 */
export function chordTone(line: JoinedLine, i: number): Found | null {
  return isChordTone(line, i) ? { target: null, manner: null } : null;
}

/**
 * Held colour: a tension or blue note that does not move by step: it is left by leap, or a breath follows it.
 * Source: tensions as colours in their own right, Nettles & Graf [memory].
 */
export function heldColour(line: JoinedLine, i: number): Found | null {
  const { role } = line.notes[i]!.sounding;
  if (role !== "tension" && role !== "blue") return null;
  const after = line.after[i] ?? null;
  if (after === null) return { target: null, manner: null };
  return isStep(line, i, after) ? null : { target: null, manner: "by leap" };
}

/**
 * Free: what remains, with no chord tone that it leads to; it may still go on by step, and by two steps in one
 * direction come home to one (the blue third by way of the ninth). [practice]
 */
export function free(line: JoinedLine, i: number): Found {
  const after = line.after[i] ?? null;
  if (after === null || !isStep(line, i, after)) return { target: null, manner: null };
  if (isChordTone(line, after)) {
    return { target: null, manner: interval(line, i, after) > 0 ? "step up home" : "step down home" };
  }
  const home = line.after[after] ?? null;
  const comesHome =
    home !== null &&
    isChordTone(line, home) &&
    isStep(line, after, home) &&
    sameDirection(line, i, after, home);
  if (!comesHome) return { target: null, manner: "by step" };
  return { target: null, manner: interval(line, i, home) > 0 ? "two steps up" : "two steps down" };
}
