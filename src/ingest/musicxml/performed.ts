import type { Note, PrintedFinger } from "../../take/index.ts";
import type { TickClock } from "../clock.ts";
import type { Pedal, SourcePedal } from "../pedal.ts";
import { nextStrikes } from "../restrikes.ts";
import type { WrittenFinger } from "./fingering.ts";
import type { PlayedNote } from "./played-notes.ts";

/** A grace note's length, in seconds, where there is room for it [practice]. */
const GRACE = 0.07;

/** Seconds of a note while grace notes still take from it. */
interface Timing {
  onset: number;
  release: number;
}

/**
 * Gives notes their seconds. Grace notes have no length of their own: an acciaccatura is taken from the time before
 * the beat, an appoggiatura from the note that it leads to, at most half of either.
 *
 * @param printedOf the written fingering of a note that counts as printed
 * @returns Notes in order of onset, then pitch, numbered.
 */
export function performNotes(
  played: readonly PlayedNote[],
  clock: TickClock,
  pedal: Pedal,
  printedOf: (written: readonly WrittenFinger[]) => readonly PrintedFinger[],
): Note[] {
  const timings = played.map(
    ({ tick, ticks }): Timing => ({ onset: clock.seconds(tick), release: clock.seconds(tick + ticks) }),
  );
  takeGraceTime(played, timings);
  const order = played.map((_, index) => index);
  order.sort((a, b) => timings[a]!.onset - timings[b]!.onset || pitchOf(played[a]!) - pitchOf(played[b]!));
  const parts = new Map<string, { readonly number: number; readonly pedal: SourcePedal | null }>();
  for (const { written } of played) {
    if (!parts.has(written.part)) {
      parts.set(written.part, { number: parts.size, pedal: pedal.of(written.part) });
    }
  }
  const restrikes = nextStrikes(
    order.map((index) => parts.get(played[index]!.written.part)!.number * 128 + pitchOf(played[index]!)),
    order.map((index) => timings[index]!.onset),
    parts.size * 128,
  );
  return order.map((index, place) => {
    const { written, bar, time, tick, ticks, grace } = played[index]!;
    const { onset, release } = timings[index]!;
    const { sound } = written;
    const silence = parts.get(written.part)!.pedal?.silence(release) ?? release;
    return {
      id: `n${place + 1}`,
      pitch: sound.pitch,
      onset,
      duration: release - onset,
      sounding: Math.max(release, Math.min(silence, restrikes[place]!)) - onset,
      velocity: sound.velocity,
      tick,
      ticks,
      part: written.part,
      printed: {
        spelling: sound.spelling,
        fingering: printedOf(sound.fingering),
        grace,
        staff: sound.staff,
        voice: written.voice,
        bar,
        documentId: sound.documentId,
        lyric: sound.lyrics[time - 1] ?? sound.lyrics[0] ?? null,
      },
    };
  });
}

function pitchOf(note: PlayedNote): number {
  return note.written.sound.pitch;
}

function takeGraceTime(played: readonly PlayedNote[], timings: readonly Timing[]): void {
  if (!played.some((note) => note.grace !== null)) return;
  /** Notes of each voice by the tick at which they start, and those that end there. */
  const starting = new Map<string, number[]>();
  const ending = new Map<string, number[]>();
  const keyOf = (note: PlayedNote, tick: number) => `${note.written.part} ${note.written.voice} ${tick}`;
  played.forEach((note, index) => {
    if (note.grace !== null) return;
    add(starting, keyOf(note, note.tick), index);
    add(ending, keyOf(note, note.tick + note.ticks), index);
  });
  const groups = new Map<string, number[]>();
  played.forEach((note, index) => {
    if (note.grace !== null) add(groups, `${keyOf(note, note.tick)} ${note.bar}`, index);
  });
  for (const members of groups.values()) {
    const first = played[members[0]!]!;
    const { graceCount, graceIndex: _, grace } = first.written;
    const main = starting.get(keyOf(first, first.tick)) ?? [];
    const before = ending.get(keyOf(first, first.tick)) ?? [];
    const beat = timings[members[0]!]!.onset;
    // At the very start there is nothing before the beat to take from, and behind the last note nothing after it.
    const fromNext = main.length > 0 && (grace === "appoggiatura" || beat < GRACE * graceCount);
    const givers = fromNext ? main : before;
    const room = Math.min(
      ...givers.map((index) => timings[index]!.release - timings[index]!.onset),
      Number.POSITIVE_INFINITY,
    );
    const each = Math.min(GRACE, room / 2 / graceCount);
    const from = fromNext ? beat : Math.max(0, beat - each * graceCount);
    for (const index of members) {
      const place = played[index]!.written.graceIndex;
      timings[index]!.onset = from + place * each;
      timings[index]!.release = from + (place + 1) * each;
    }
    for (const index of givers) {
      if (fromNext) timings[index]!.onset = from + each * graceCount;
      else timings[index]!.release = Math.min(timings[index]!.release, from);
    }
  }
}

function add(map: Map<string, number[]>, key: string, index: number): void {
  const list = map.get(key);
  if (list === undefined) map.set(key, [index]);
  else list.push(index);
}
