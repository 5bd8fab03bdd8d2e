import type { Note } from "../take/index.ts";

/**
 * The name of each note in its source, parallel to the notes: its part, its tick and its key, "t1/960/64"; the second
 * of the same is "t1/960/64#2". It does not depend on what else is in the take, nor on any option.
 *
 * @example sourceNames([{ ...note, part: "t1", tick: 960, pitch: 64 }]) // ["t1/960/64"]
 */
export function sourceNames(notes: readonly Pick<Note, "part" | "tick" | "pitch">[]): string[] {
  const times = new Map<string, number>();
  return notes.map(({ part, tick, pitch }) => {
    const name = `${part}/${tick}/${pitch}`;
    const time = (times.get(name) ?? 0) + 1;
    times.set(name, time);
    return time === 1 ? name : `${name}#${time}`;
  });
}
