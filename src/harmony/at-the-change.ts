/** Line roles that are made by a change of chord: the note is early (anticipation) or late (suspension). */
import { isSameChord, type Line, nextSpanOf, soundingOf } from "./line.ts";
import { type Found, isChordTone, isStep } from "./line-motion.ts";

/** A note is struck early enough to be heard as the next chord's when at most so many quarter notes before it. */
export const ANTICIPATION_BEATS = 0.5;

const NEAR = 1e-6;

/**
 * Anticipation: not a chord tone now, a chord tone of the next chord, struck at most half a beat before the change.
 * Half a beat is an eighth note; a swung off-beat stands on x.5 and counts the same. After the form's last chord
 * comes its first. The target is the same note struck again on the chord, where there is one.
 * In rubato, without beats: held over the change, or struck again as the first note of the next chord.
 * Source: Kostka & Payne, Tonal Harmony [memory].
 */
export function anticipation(line: Line, i: number): Found | null {
  const { note, sounding, change } = line.notes[i]!;
  if (sounding.chordTone) return null;
  const nextSpan = nextSpanOf(line.harmony, note.span);
  if (line.harmony.spans[nextSpan]!.chord === null) return null;
  if (!soundingOf(line.harmony, nextSpan, note.pitch).chordTone) return null;
  const next = line.next[i] ?? null;
  const following = next === null ? null : line.notes[next]!.note;
  const again = following !== null && following.pitch === note.pitch && following.span === nextSpan;
  const early = change.after === null ? again || change.heldInto : change.after <= ANTICIPATION_BEATS + NEAR;
  if (!early) return null;
  return { target: again ? next : null, manner: again ? "repeated" : change.heldInto ? "held" : "struck" };
}

/**
 * Suspension: held or repeated from a chord tone of the previous chord, then moves by step to a chord tone. A held
 * note must sound at least half a beat into the new chord and be foreign to it: a legato overlap is none.
 * Source: Kostka & Payne [memory]; an upward resolution (retardation) is counted in.
 */
export function suspension(line: Line, i: number): Found | null {
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
