/** Line roles that are made by a change of chord: the note is early (anticipation) or late (suspension). */
import { isSameChord, type JoinedLine, nextSpanOf, soundingOf } from "./joined-line.ts";
import { type Found, isChordTone, isStep } from "./line-motion.ts";

/** A note is struck early enough to be heard as the next chord's when at most so many quarter notes before it. */
const ANTICIPATION_BEATS = 0.5;

const NEAR = 1e-6;

/** A note that sounds so long (quarter notes) into the new chord is said to be held over the change. [practice] */
const HELD_BEATS = 0.25;

/** So long (quarter notes) nothing else may be struck over the new chord, for a note to be heard as its own. [practice] */
const UNDISTURBED_BEATS = 0.5;

/**
 * Anticipation: not a chord tone now, a chord tone of the next chord, struck at most half a beat before the change,
 * and then held over it, struck again, or left standing before a rest. A note that a line runs through on its way to
 * another is none. Half a beat is an eighth note; a swung off-beat stands on x.5 and counts the same. After the
 * form's last chord comes its first. The target is the same note struck again on the chord, where there is one.
 * In rubato, without beats: held over the change, or struck again as the first note of the next chord.
 * Source: Kostka & Payne, Tonal Harmony [memory].
 */
export function anticipation(line: JoinedLine, i: number): Found | null {
  const { note, sounding, change } = line.notes[i]!;
  if (sounding.chordTone) return null;
  const nextSpan = nextSpanOf(line.harmony, note.span);
  if (line.harmony.spans[nextSpan]!.chord === null) return null;
  if (!soundingOf(line.harmony, nextSpan, note.pitch).chordTone) return null;
  if (change.after !== null && change.after > ANTICIPATION_BEATS + NEAR) return null;
  const again = struckAgain(line, i, nextSpan);
  if (again !== null) return { target: again, manner: "repeated" };
  if (change.after === null) return change.heldInto ? { target: null, manner: "held" } : null;
  if (!isUndisturbed(line, i, change.after)) return null;
  const heldFor = note.beats! - change.after;
  return { target: null, manner: heldFor >= HELD_BEATS - NEAR ? "held" : "struck" };
}

/** The place of the same pitch struck again as the first other note over the next chord, or null. */
function struckAgain(line: JoinedLine, i: number, nextSpan: number): number | null {
  const { pitch } = line.notes[i]!.note;
  for (let at = line.next[i] ?? null; at !== null; at = line.next[at] ?? null) {
    const { note } = line.notes[at]!;
    if (note.pitch !== pitch) return null;
    if (note.span === nextSpan) return at;
  }
  return null;
}

/** True when the line strikes nothing until the new chord has been heard: the note is held, or a rest follows. */
function isUndisturbed(line: JoinedLine, i: number, changeAfter: number): boolean {
  const next = line.notes[i + 1];
  if (next === undefined) return true;
  const until = next.note.position! - line.notes[i]!.note.position!;
  return until >= changeAfter + UNDISTURBED_BEATS - NEAR;
}

/**
 * Suspension: held or repeated from a chord tone of the previous chord, then moves by step to a chord tone. No rest
 * lies between the preparation and the note struck again. A held note must sound at least half a beat into the new chord and be foreign to it: a legato overlap is none.
 * Source: Kostka & Payne [memory]; an upward resolution (retardation) is counted in.
 */
export function suspension(line: JoinedLine, i: number): Found | null {
  const { note, sounding, change } = line.notes[i]!;
  const after = line.after[i] ?? null;
  if (after === null || !isStep(line, i, after) || !isChordTone(line, after)) return null;
  if (sounding.chordTone) {
    const nextSpan = nextSpanOf(line.harmony, note.span);
    const foreign = !soundingOf(line.harmony, nextSpan, note.pitch).chordTone;
    const resolvesThere = isSameChord(line.harmony, line.notes[after]!.note.span, nextSpan);
    return change.heldInto && foreign && resolvesThere ? { target: after, manner: "held" } : null;
  }
  const prepared = line.carried[i] ?? null;
  return prepared !== null && isChordTone(line, prepared) ? { target: after, manner: "repeated" } : null;
}
