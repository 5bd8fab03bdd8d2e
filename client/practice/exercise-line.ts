/** An exercise as it sounds: a bar counted in, then its notes with what goes along, at one tempo of its plan. */
import { parseChart } from "../../src/chart/chart-text.ts";
import type { Exercise } from "../../src/practice/exercise.ts";
import { type Backing, type BackingNote, backingOf, type ClickOn } from "../sound/backing.ts";

export interface ExerciseLine {
  /** The exercise's own notes that a student is to play, slides without the key that they come from. */
  readonly asked: readonly { readonly pitch: number; readonly onset: number }[];
  /** All that sounds, in order of time, in seconds from the first click. */
  readonly notes: readonly Omit<BackingNote, "kind">[];
  /** `pitch` 1 on the first beat of a bar. */
  readonly clicks: readonly Pick<BackingNote, "onset" | "pitch">[];
  readonly seconds: number;
}

/** Loudness of the exercise's own notes among what goes along (MIDI velocity). */
const LOUD = 88;
/** Seconds of a key from which a finger slides. */
const SLIDE = 0.07;

/**
 * @param quartersPerMinute tempo
 * @param along what goes along beside the click
 * @param how where the click falls after the count-in, which is on every beat; whether the exercise's own notes are
 *   left to the student
 */
export function exerciseLine(
  exercise: Exercise,
  quartersPerMinute: number,
  along: readonly Exclude<Backing, "click">[],
  { clickOn = "every beat", silent = false }: { readonly clickOn?: ClickOn; readonly silent?: boolean } = {},
): ExerciseLine {
  const quarter = 60 / quartersPerMinute;
  const bar = ((exercise.meter.beats * 4) / exercise.meter.unit) * quarter;
  const start = (i: number) => (i + 1) * bar;
  const own = exercise.bars.flatMap(({ notes }, i) =>
    notes.map((note) => {
      const onset = start(i) + played(note.at, exercise.swing) * quarter;
      const end = start(i) + played(note.at + note.beats, exercise.swing) * quarter;
      return note.slide === "from"
        ? { pitch: note.pitch, onset: onset - SLIDE, duration: SLIDE, velocity: LOUD, grace: true }
        : { pitch: note.pitch, onset, duration: end - onset, velocity: LOUD, grace: false };
    }),
  );
  const bars = exercise.bars.map((_, i) => ({ bar: i + 1, start: start(i), end: start(i + 1) }));
  const backing = backingOf(chartOf(exercise), bars, new Set<Backing>([...along, "click"]), {
    steady: true,
    clickOn,
  });
  const beat = (4 / exercise.meter.unit) * quarter;
  const countIn = Array.from({ length: exercise.meter.beats }, (_, i) => ({
    onset: i * beat,
    pitch: i === 0 ? 1 : 0,
  }));
  const heard = silent ? [] : own.map(({ grace, ...note }) => note);
  return {
    asked: own.filter(({ grace }) => !grace).map(({ pitch, onset }) => ({ pitch, onset })),
    notes: [...heard, ...backing.filter(({ kind }) => kind !== "click")].sort((a, b) => a.onset - b.onset),
    clicks: [...countIn, ...backing.filter(({ kind }) => kind === "click")],
    seconds: start(exercise.bars.length),
  };
}

/** Where a place of the bar (quarter notes) sounds: swung eighths are two thirds and one third of their beat. */
function played(at: number, swing: boolean): number {
  if (!swing) return at;
  const whole = Math.floor(at + 1e-6);
  const part = at - whole;
  return whole + (part <= 0.5 ? (part * 4) / 3 : 2 / 3 + ((part - 0.5) * 2) / 3);
}

/** The exercise's chords as a chart; a bar without one holds the chord before it. */
function chartOf({ bars, meter }: Exercise) {
  const perQuarter = meter.unit / 4;
  let before = "N.C.";
  const texts = bars.map(({ chords }) => {
    if (chords.length === 0) return before;
    const text = chords
      .map(({ at, symbol }, i) => {
        const until = chords[i + 1]?.at ?? meter.beats / perQuarter;
        return `${symbol}:${(until - (i === 0 ? 0 : at)) * perQuarter}`;
      })
      .join(" ");
    before = chords.at(-1)!.symbol;
    return text;
  });
  return parseChart(`meter: ${meter.beats}/${meter.unit}\n| ${texts.join(" | ")} |`);
}
