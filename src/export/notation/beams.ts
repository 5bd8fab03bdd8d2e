import { NOTE_TYPES, type NoteType } from "./note-values.ts";

/** One written note or rest in its voice. */
export interface Beamable {
  readonly tick: number;
  readonly type: NoteType | null;
  readonly rest: boolean;
}

/**
 * Beams of one voice in one bar: neighbours shorter than a quarter within the same beat are joined, level by level;
 * a rest, a longer note or a new beat ends the beam [practice].
 *
 * @returns For each note its beams from the first level on: "begin", "continue", "end" or a hook; empty without.
 */
export function beamsOf(notes: readonly Beamable[], beat: number): string[][] {
  const beams = notes.map((): string[] => []);
  const levels = notes.map(({ type, rest }) =>
    rest || type === null ? 0 : Math.max(0, NOTE_TYPES.indexOf(type) - 3),
  );
  let from = 0;
  while (from < notes.length) {
    if (levels[from] === 0) {
      from++;
      continue;
    }
    let to = from;
    const group = Math.floor(notes[from]!.tick / beat);
    while (to + 1 < notes.length && levels[to + 1]! > 0 && Math.floor(notes[to + 1]!.tick / beat) === group)
      to++;
    if (to > from) joinGroup(levels, beams, from, to);
    from = to + 1;
  }
  return beams;
}

function joinGroup(levels: readonly number[], beams: string[][], from: number, to: number): void {
  for (let at = from; at <= to; at++) {
    for (let level = 1; level <= levels[at]!; level++) {
      const before = at > from && levels[at - 1]! >= level;
      const after = at < to && levels[at + 1]! >= level;
      const hook = at === from ? "forward hook" : "backward hook";
      beams[at]!.push(before ? (after ? "continue" : "end") : after ? "begin" : hook);
    }
  }
}
