/** An exercise that is played by a student: each key judged as it is pressed, and at the end what was met. */
import { count } from "../../src/words/index.ts";

/** A note of the exercise: its key as a MIDI number, and seconds from the first click. */
export interface Asked {
  readonly pitch: number;
  readonly onset: number;
}

export interface Answer {
  /** Seconds by which each note of the exercise was late, early below 0; null while it was not met. */
  readonly met: readonly (number | null)[];
  /** Keys that the exercise does not have where they were pressed. */
  readonly wrong: number;
}

export type Judged =
  | { readonly kind: "met"; readonly note: number; readonly late: number }
  | { readonly kind: "wrong key" };

/** In time is within this of the note's place, seconds: the window in which onsets are called the same (MIREX) [lit]. */
export const IN_TIME = 0.05;
/**
 * Part of a beat in which a key answers a note at all: half of it, so that the same key a beat later is the next note.
 * [practice]
 */
const REACH = 0.5;

export const unanswered = (asked: readonly Asked[]): Answer => ({ met: asked.map(() => null), wrong: 0 });

/**
 * Judges a key in the moment at which it is pressed.
 *
 * @param seconds from the first click, with the delay of the keyboard taken off
 * @param beat seconds of a beat
 */
export function pressed(
  answer: Answer,
  asked: readonly Asked[],
  pitch: number,
  seconds: number,
  beat: number,
): { readonly answer: Answer; readonly judged: Judged } {
  let note = -1;
  for (const [i, one] of asked.entries()) {
    if (one.pitch !== pitch || answer.met[i] !== null) continue;
    const away = Math.abs(seconds - one.onset);
    if (away <= REACH * beat && (note < 0 || away < Math.abs(seconds - asked[note]!.onset))) note = i;
  }
  if (note < 0) return { answer: { ...answer, wrong: answer.wrong + 1 }, judged: { kind: "wrong key" } };
  const late = seconds - asked[note]!.onset;
  return {
    answer: { ...answer, met: answer.met.map((one, i) => (i === note ? late : one)) },
    judged: { kind: "met", note, late },
  };
}

export interface Met {
  readonly notes: number;
  readonly met: number;
  readonly inTime: number;
  readonly wrong: number;
  /** Median seconds by which the notes that were met came late; null where none was. */
  readonly late: number | null;
}

/**
 * What was met of the exercise.
 *
 * @param measured whether the keyboard's delay is known: else each note is in time against the median of them all,
 *   since a delay would make every one late
 */
export function whatWasMet(answer: Answer, measured: boolean): Met {
  const lates = answer.met.filter((one) => one !== null);
  const late = lates.length === 0 ? null : median(lates);
  const own = measured ? 0 : (late ?? 0);
  return {
    notes: answer.met.length,
    met: lates.length,
    inTime: lates.filter((one) => Math.abs(one - own) <= IN_TIME).length,
    wrong: answer.wrong,
    late,
  };
}

/** "11 of 12 notes met, nine of them in time (within 50 ms). Not in it: two keys." */
export function metWords({ notes, met, inTime, wrong, late }: Met, measured: boolean): string {
  if (met === 0 && wrong === 0) return "Nothing was played.";
  const ms = Math.round((late ?? 0) * 1000);
  const whole =
    late === null
      ? null
      : !measured
        ? "Time is judged between your notes, since the delay of this keyboard is not measured (record page)."
        : Math.abs(late) <= IN_TIME / 2
          ? "On the whole you are with the click."
          : `On the whole you are ${Math.abs(ms)} ms ${ms > 0 ? "behind" : "ahead of"} the click.`;
  return [
    `${met} of ${notes} notes met, ${inTime} of them in time (within ${IN_TIME * 1000} ms).`,
    wrong === 0 ? null : `Not in it: ${count(wrong, "key")}.`,
    whole,
  ]
    .filter(Boolean)
    .join(" ");
}

/** What is said of a key at once. */
export function judgedWords(judged: Judged, measured: boolean): string {
  if (judged.kind === "wrong key") return "not in the exercise here";
  if (!measured || Math.abs(judged.late) <= IN_TIME) return measured ? "right, in time" : "right";
  return `right, ${Math.round(Math.abs(judged.late) * 1000)} ms ${judged.late > 0 ? "late" : "early"}`;
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
}
