/**
 * What a pitch says about the place in the chart: for every chord of a chorus, how much likelier a pitch class is
 * there than anywhere. Tables as data; the shares are common practice of the trade [practice]: bass players play
 * the root when the chord begins, comping hands play thirds and sevenths, lines play chord tones, then scale tones.
 */
import { quartersPerBar } from "../chart/index.ts";
import type { Chart, Chord, ChordTone } from "../chart/types.ts";
import { mod12 } from "../pitch/index.ts";

/** Who plays a note, as far as the harmony is concerned. */
export const VOICES = ["bass at the change", "bass", "comping", "line on the beat", "line"] as const;
export type Voice = (typeof VOICES)[number];

/** Relative shares of pitch classes by what they are in the chord; each row is scaled to sum to 1 over an octave. */
const PITCH_SHARES: Readonly<
  Record<Voice, Readonly<Record<"bass" | ChordTone["role"] | "near" | "scale" | "other", number>>>
> = {
  "bass at the change": {
    bass: 8,
    root: 2,
    third: 0.7,
    fifth: 0.9,
    seventh: 0.4,
    tension: 0.2,
    near: 0.2,
    scale: 0.2,
    other: 0.15,
  },
  bass: {
    bass: 4,
    root: 2,
    third: 1.2,
    fifth: 1.8,
    seventh: 0.9,
    tension: 0.4,
    near: 0.4,
    scale: 0.5,
    other: 0.3,
  },
  comping: {
    bass: 1.6,
    root: 1.6,
    third: 2.2,
    fifth: 1.4,
    seventh: 2,
    tension: 1.2,
    near: 0.7,
    scale: 0.35,
    other: 0.12,
  },
  "line on the beat": {
    bass: 1.7,
    root: 1.7,
    third: 1.8,
    fifth: 1.6,
    seventh: 1.5,
    tension: 0.9,
    near: 0.7,
    scale: 0.5,
    other: 0.25,
  },
  line: {
    bass: 1.2,
    root: 1.2,
    third: 1.3,
    fifth: 1.2,
    seventh: 1.2,
    tension: 1,
    near: 0.9,
    scale: 0.8,
    other: 0.4,
  },
};

/** A chord of the chorus with its place in quarter-note beats. */
export interface ChartStretch {
  readonly start: number;
  readonly beats: number;
  readonly chord: Chord | null;
}

/** The chords of one chorus in order, one stretch each, in the order of `chordSpans(chart)`. */
export function chartStretches(chart: Chart): ChartStretch[] {
  const bar = quartersPerBar(chart.meter);
  return chart.bars.flatMap((chartBar, b) =>
    chartBar.chords.map((entry) => ({
      start: b * bar + ((entry.beat - 1) * 4) / chart.meter.unit,
      beats: (entry.beats * 4) / chart.meter.unit,
      chord: entry.chord,
    })),
  );
}

/**
 * Log-likelihood ratio (nats, against a pitch class drawn blindly) of each pitch class in each stretch, for each
 * voice: `table[(voice * stretches + stretch) * 12 + pitchClass]`, voices in the order of `VOICES`.
 */
export function pitchEvidence(chart: Chart, stretches: readonly ChartStretch[]): Float64Array {
  const scale = keyScale(chart);
  const table = new Float64Array(VOICES.length * stretches.length * 12);
  VOICES.forEach((voice, v) => {
    stretches.forEach(({ chord }, s) => {
      const shares = chordShares(chord, scale, voice);
      const sum = shares.reduce((a, b) => a + b, 0);
      shares.forEach((share, pitchClass) => {
        table[(v * stretches.length + s) * 12 + pitchClass] = Math.log((share * 12) / sum);
      });
    });
  });
  return table;
}

function chordShares(chord: Chord | null, scale: ReadonlySet<number>, voice: Voice): number[] {
  const shares = PITCH_SHARES[voice];
  return Array.from({ length: 12 }, (_, pitchClass) => {
    if (chord === null) return scale.has(pitchClass) ? shares.scale : shares.other;
    if (pitchClass === chord.bassClass) return shares.bass;
    const above = mod12(pitchClass - chord.rootClass);
    const tone = chord.tones.find((t) => t.semitones === above);
    if (tone !== undefined) return shares[tone.role];
    // Ninth and thirteenth go with nearly every chord.
    if (above === 2 || above === 9) return shares.near;
    return scale.has(pitchClass) ? shares.scale : shares.other;
  });
}

/** Pitch classes of the key, with the blues' third and fifth where the idiom is blues. */
function keyScale(chart: Chart): ReadonlySet<number> {
  const { tonicClass, mode } = chart.key;
  const steps = mode === "major" ? [0, 2, 4, 5, 7, 9, 11] : [0, 2, 3, 5, 7, 8, 10];
  const blue = chart.idiom === "blues" ? [3, 6, 10] : [];
  return new Set([...steps, ...blue].map((step) => (step + tonicClass) % 12));
}
