/** A waltz of our own that both hands play freely, as a pianist slows down at the end of every fourth bar. */
import { parseChart } from "../../src/chart/index.ts";
import type { Take } from "../../src/take/index.ts";
import { type PlayedNote, takeOf } from "./human-solos.ts";

const CHANGES = ["C", "F", "G7", "C", "Am", "Dm", "G7", "C", "Em", "Am", "D7", "G", "C7", "F", "G7", "C"];
export const CHART = parseChart(`key: C\nmeter: 3/4\n| ${CHANGES.join(" | ")} |`);
/** Keys of a bass, and of three upper voices over it, by chord: textbook spellings [memory]. */
const KEYS: Readonly<Record<string, readonly [number, ...number[]]>> = {
  C: [48, 64, 67, 72],
  F: [41, 65, 69, 72],
  G7: [43, 65, 71, 74],
  Am: [45, 64, 69, 72],
  Dm: [50, 65, 69, 74],
  Em: [40, 64, 67, 71],
  D7: [50, 66, 69, 72],
  G: [43, 67, 71, 74],
  C7: [48, 64, 70, 72],
};

/** Seconds of a beat: three quarters of a second, slower at the end of every fourth bar as pianists are. */
function secondsOf(beat: number): number {
  let seconds = 1;
  for (let k = 0; k < beat; k++) seconds += 0.75 * (1 + (k % 12 >= 9 ? 0.12 * ((k % 12) - 8) : 0));
  return seconds;
}

/** A waltz: bass and chords below, broken chords in eighths above. */
export function waltz(
  change: (note: PlayedNote) => PlayedNote = (note) => note,
  choruses = 1,
): { take: Take; beats: number[] } {
  const notes: PlayedNote[] = [];
  const beats: number[] = [];
  const changes = Array.from({ length: choruses }, () => CHANGES).flat();
  changes.forEach((chord, bar) => {
    const [bass, ...upper] = KEYS[chord]!;
    for (let beat = 0; beat < 3; beat++) {
      const at = secondsOf(bar * 3 + beat);
      const half = (secondsOf(bar * 3 + beat + 1) - at) / 2;
      beats.push(at);
      const add = (pitch: number, onset: number, duration: number) =>
        notes.push({ pitch, onset, duration, tick: 0, part: "t1" });
      if (beat === 0) add(bass, at, 4 * half);
      else for (const pitch of upper.slice(0, 2)) add(pitch - 12, at, half);
      add(upper[beat]! + 12, at, half);
      add(upper[(beat + 1) % 3]! + 12, at + half, half);
    }
  });
  return { take: takeOf(notes.map(change), {}), beats };
}

/** Hands as they were meant: what lies below middle C and the two below the line are the left one's. */
export const handsOf = ({ notes }: Take) =>
  notes.map(({ pitch }) => ({
    hand: pitch < 64 ? ("left" as const) : ("right" as const),
    solo: pitch >= 64,
    margin: 1,
  }));
