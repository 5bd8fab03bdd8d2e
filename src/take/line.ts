/** What a note must have to stand in a line: MIDI number, seconds. */
export interface LineMember {
  readonly pitch: number;
  readonly onset: number;
  readonly duration: number;
}

/** One step of the line: a single note, or the notes of a double stop struck together, told by the highest. */
export interface LineNote<T extends LineMember> {
  /** The highest of the notes struck together. */
  readonly note: T;
  /** Index of the first and of the last of them in the notes that were given. */
  readonly first: number;
  readonly last: number;
  /** Seconds: when it starts, and when the last of its keys is let go. */
  readonly onset: number;
  readonly end: number;
}

/** Seconds within which two keys count as struck together; slides and graces are slower. [practice] */
const TOGETHER = 0.03;

/**
 * The line that the ear follows: notes struck together become one step. A note that is let go as the next one
 * starts is a step of its own however short it is, so that graces and slides are kept.
 *
 * @param notes in time order
 */
export function melodicLine<T extends LineMember>(notes: readonly T[]): LineNote<T>[] {
  const line: LineNote<T>[] = [];
  for (let i = 0; i < notes.length; i++) {
    const note = notes[i]!;
    const end = note.onset + note.duration;
    const before = line[line.length - 1];
    if (before !== undefined && struckTogether(before, note)) {
      line[line.length - 1] = {
        note: note.pitch > before.note.pitch ? note : before.note,
        first: before.first,
        last: i,
        onset: before.onset,
        end: Math.max(before.end, end),
      };
    } else line.push({ note, first: i, last: i, onset: note.onset, end });
  }
  return line;
}

function struckTogether(before: LineNote<LineMember>, note: LineMember): boolean {
  if (note.onset - before.onset > TOGETHER) return false;
  return before.end - note.onset > Math.min(before.note.duration, note.duration) / 2;
}
