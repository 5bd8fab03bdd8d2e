import type { EMPTY_BAR, ScoreBar, ScoreModel, ScoreNote } from "../export/score-model.ts";
import type { Exercise, ExerciseNote } from "./exercise.ts";

/** Ticks of a quarter note: eighths are 6. */
const TICKS = 12;

/** Bars of a line where the exercise begins no lines of its own: a phrase, as lead sheets are written. [practice] */
const BARS_A_LINE = 4;

const PLAIN: typeof EMPTY_BAR = {
  implicit: false,
  heading: null,
  newLine: false,
  close: "plain",
  chords: [],
  notes: [],
};

/** The exercise as a page of notation, for the MusicXML writer: one staff, chord symbols, every finger. */
export function exerciseScore(exercise: Exercise): ScoreModel {
  const barTicks = (exercise.meter.beats * 4 * TICKS) / exercise.meter.unit;
  const ownLines = exercise.bars.some((bar, i) => bar.newLine && i > 0);
  const tempo = exercise.tempoPlan.find((step) => step.quartersPerMinute !== null)?.quartersPerMinute ?? 60;
  return {
    title: `${exercise.title} (${exercise.key})`,
    ticksPerQuarter: TICKS,
    parts: [{ id: "P1", name: "Right hand", staves: 1, program: 0 }],
    meters: [{ tick: 0, beats: exercise.meter.beats, unit: exercise.meter.unit }],
    keys: [
      { tick: 0, fifths: exercise.fifths, mode: exercise.mode },
      ...exercise.keyChanges.map(({ bar, fifths, mode }) => ({ tick: (bar - 1) * barTicks, fifths, mode })),
    ],
    tempos: [{ tick: 0, quartersPerMinute: tempo }],
    swing: exercise.swing ? { first: 2, second: 1, unit: "eighth" } : null,
    // Chord symbols and fingers stand above, so what is said of a bar stands below it.
    texts: exercise.bars.flatMap(({ words }, i) =>
      words === null ? [] : [{ tick: i * barTicks, text: words, below: true as const }],
    ),
    pedal: [],
    bars: exercise.bars.map(
      (bar, i): ScoreBar => ({
        ...PLAIN,
        number: String(i + 1),
        ticks: barTicks,
        newLine: i > 0 && (ownLines ? bar.newLine : i % BARS_A_LINE === 0),
        close: i === exercise.bars.length - 1 ? "final" : "plain",
        chords: bar.chords.map((chord) => ({ tick: Math.round(chord.at * TICKS), text: chord.symbol })),
        notes: bar.notes.map((note, k) => scoreNote(note, `e${exercise.id}b${i + 1}n${k + 1}`)),
      }),
    ),
  };
}

function scoreNote(note: ExerciseNote, id: string): ScoreNote {
  const grace = note.slide === "from";
  return {
    id,
    part: null,
    voice: null,
    tick: Math.round(note.at * TICKS),
    ticks: grace ? 0 : Math.round(note.beats * TICKS),
    spelling: note.spelling,
    staff: 1,
    velocity: null,
    grace: grace ? "acciaccatura" : null,
    fingering: note.finger === null ? [] : [{ finger: note.finger, substitution: false, alternate: false }],
    notehead: "normal",
    lyrics: [],
    words: null,
  };
}
