/**
 * Playing in free time: there is no click, and the player says with a foot or a key when the next chord begins. Each
 * change is a moment whose place in the form is known.
 */
import type { Analysis } from "../../src/account.ts";
import type { Chart, Chord, ChordSpan } from "../../src/chart/types.ts";
import { mod12 } from "../../src/pitch/index.ts";
import type { Backing } from "../sound/backing.ts";

/** What changes the chord besides the arrow keys and the button on the page. */
export const CHANGERS = ["left pedal", "middle pedal", "right pedal", "lowest key"] as const;
export type Changer = (typeof CHANGERS)[number];

/** The lowest key of a piano, A0, as a MIDI number. */
export const LOWEST_KEY = 21;

/** A place in the form: bars since its first bar line, of whichever chorus, below 0 before it; and the chord there. */
export interface FormPlace {
  readonly bars: number;
  readonly span: ChordSpan | null;
}

/**
 * The moments as anchors. One chord follows the other as the chart has them, round after round.
 *
 * @param changes seconds at which chords began, the first of them the first chord of the form
 */
export function changeAnchors(
  changes: readonly number[],
  spans: readonly ChordSpan[],
): Analysis["alignment"]["anchors"] {
  return changes.map((seconds, i) => {
    const { bar, beat } = spans[i % spans.length]!;
    return {
      seconds: Number(seconds.toFixed(3)),
      chorus: Math.floor(i / spans.length) + 1,
      bar,
      beat,
    };
  });
}

/** Seconds that a quarter note may take before there is one to go by: slow enough that nothing runs ahead. */
const SLOW_QUARTER = 1;
/** A chord that goes on longer than the ones before waits here, short of the next one. */
const WAITS = 0.95;

/** Where the player is: in the chord of the last change, as far as the pace of the chords before would have it. */
export function placeInFree(
  changes: readonly number[],
  spans: readonly ChordSpan[],
  chart: Chart,
  seconds: number,
): FormPlace {
  const last = changes.length - 1;
  if (last < 0 || spans.length === 0) return { bars: -1, span: null };
  const span = spans[last % spans.length]!;
  const length = (chart.meter.beats * 4) / chart.meter.unit;
  const before = last === 0 ? null : spans[(last - 1) % spans.length]!;
  const quarter = before === null ? SLOW_QUARTER : (changes[last]! - changes[last - 1]!) / before.beats;
  const gone = Math.min(WAITS * span.beats, Math.max(0, seconds - changes[last]!) / Math.max(quarter, 0.05));
  const chorus = Math.floor(last / spans.length);
  return { bars: chorus * chart.bars.length + (span.start + gone) / length, span };
}

const BASS_FROM = 33;
const SHELL_FROM = 50;

/** What sounds as a chord begins: its bass note, and its third and seventh. */
export function chordKeys(chord: Chord | null, wanted: ReadonlySet<Backing>): number[] {
  if (chord === null) return [];
  const bass = wanted.has("bass") ? [BASS_FROM + mod12(chord.bassClass - BASS_FROM)] : [];
  const shell = wanted.has("shells")
    ? (["third", "seventh"] as const).flatMap((role) => {
        const tone = chord.tones.find((one) => one.role === role);
        return tone ? [SHELL_FROM + mod12(chord.rootClass + tone.semitones - SHELL_FROM)] : [];
      })
    : [];
  return [...bass, ...shell];
}

/**
 * What is said of where the player stands.
 *
 * @param before bars of the whole chart before those that go round
 */
export function freeWords(place: FormPlace, chart: Chart, notes: string, before = 0): string {
  if (place.bars < 0) return "Free time: change to the first chord when you begin.";
  const { length } = chart.bars;
  const bar = before + (Math.floor(place.bars) % length) + 1;
  return `Round ${Math.floor(place.bars / length) + 1}, bar ${bar}, ${notes} so far.`;
}
