import type { Chart, Chord } from "../../src/chart/index.ts";

/** A stretch of one chord, in quarter-note beats from the start of the chorus. */
export interface Stretch {
  readonly start: number;
  readonly beats: number;
  readonly bar: number;
  readonly chord: Chord;
}

/** The chart laid out in time. The class plays in 4/4 only. */
export interface Harmony {
  readonly stretches: readonly Stretch[];
  readonly bars: number;
  readonly chorusBeats: number;
  /** Stretch at a position in quarter-note beats from the first bar line; before it, the first chord is led into. */
  at(position: number): Stretch;
}

export function harmonyOf(chart: Chart): Harmony {
  if (chart.meter.beats !== 4 || chart.meter.unit !== 4) throw new RangeError("the class plays in 4/4");
  const stretches: Stretch[] = [];
  for (const bar of chart.bars) {
    for (const { chord, beat, beats } of bar.chords) {
      if (chord === null) throw new RangeError("the class plays over chords");
      stretches.push({ start: (bar.number - 1) * 4 + beat - 1, beats, bar: bar.number, chord });
    }
  }
  const chorusBeats = chart.bars.length * 4;
  return {
    stretches,
    bars: chart.bars.length,
    chorusBeats,
    at(position) {
      const local = position < 0 ? 0 : position % chorusBeats;
      let found = stretches[0]!;
      for (const stretch of stretches) if (stretch.start <= local + 1e-9) found = stretch;
      return found;
    },
  };
}

/** Semitones above the chord's root, 0 to 11. */
export function above(chord: Chord, pitch: number): number {
  return (((pitch - chord.rootClass) % 12) + 12) % 12;
}

export function isChordTone(chord: Chord, pitch: number): boolean {
  const semitones = above(chord, pitch);
  return chord.tones.some((tone) => tone.semitones === semitones && tone.role !== "tension");
}

export function isGuideTone(chord: Chord, pitch: number): boolean {
  const semitones = above(chord, pitch);
  return chord.tones.some(
    (tone) => tone.semitones === semitones && (tone.role === "third" || tone.role === "seventh"),
  );
}

/** Semitones of the third above the root, or null. */
export function thirdOf(chord: Chord): number | null {
  return chord.tones.find((tone) => tone.role === "third")?.semitones ?? null;
}

const LETTERS = ["C", "D", "E", "F", "G", "A", "B"] as const;
const LETTER_CLASS = [0, 2, 4, 5, 7, 9, 11] as const;
/** Letters above the root's letter for each number of semitones. */
const STEPS = [0, 1, 1, 2, 2, 3, 4, 4, 5, 5, 6, 6] as const;
const FLAT_NAMES = ["C", "Db", "D", "Eb", "E", "F", "Gb", "G", "Ab", "A", "Bb", "B"] as const;
const RARE = new Set(["Cb", "Fb", "E#", "B#"]);

/** Letter, alteration and octave of a pitch as a musician writes it over a chord. */
export function spell(pitch: number, chord: Chord): { step: string; alter: number; octave: number } {
  const root = LETTERS.indexOf(chord.root[0] as (typeof LETTERS)[number]);
  const letter = (root + STEPS[above(chord, pitch)]!) % 7;
  let alter = ((((pitch - LETTER_CLASS[letter]!) % 12) + 18) % 12) - 6;
  let step: string = LETTERS[letter]!;
  const name = step + (alter > 0 ? "#".repeat(alter) : "b".repeat(-alter));
  if (Math.abs(alter) > 1 || RARE.has(name)) {
    const flat = FLAT_NAMES[((pitch % 12) + 12) % 12]!;
    step = flat[0]!;
    alter = flat.length > 1 ? -1 : 0;
  }
  const natural = pitch - alter;
  return { step, alter, octave: Math.floor(natural / 12) - 1 };
}
