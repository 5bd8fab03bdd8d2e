/** A comping hand in one of the usual manners [practice]. */
import type { Chart, Chord } from "../../../src/chart/types.ts";
import type { Placed, WrittenNote } from "./material.ts";
import type { Random } from "./random.ts";

export type CompingStyle = "walking" | "shells" | "voicings" | "oom-pah" | "three on four" | "none";

/** How the hand plays, whatever the chord. */
interface Player {
  readonly random: Random;
  /** The key around which it lies, a MIDI number. */
  readonly around: number;
  /** The chart's beat in quarter notes: a dotted quarter in 6/8. */
  readonly beat: number;
  readonly compound: boolean;
  /** Out of time a pianist strikes every chord where it begins. */
  readonly free: boolean;
}

/** A chord while it lasts. */
interface Held {
  readonly chord: Chord;
  /** Quarter-note beats. */
  readonly start: number;
  readonly beats: number;
  /** The chart's beats that it lasts. */
  readonly count: number;
  /** Nothing was played before it. */
  readonly isFirst: boolean;
  readonly following: Chord;
  /** Pitch classes of its tones, and of its third and seventh. */
  readonly tones: readonly number[];
  readonly guide: readonly number[];
}

type Stroke = Pick<WrittenNote, "position" | "beats" | "pitch">;

const near = (pitchClass: number, around: number) => around + ((((pitchClass - around) % 12) + 18) % 12) - 6;

/** @param free out of time, a pianist strikes every chord where it begins */
export function comp(
  chart: Chart,
  chords: readonly Placed[],
  style: CompingStyle,
  random: Random,
  around = 50,
  free = false,
): WrittenNote[] {
  const compound = chart.meter.unit >= 8;
  const player = { random, around, beat: compound ? 1.5 : 1, compound, free };
  const strokes: Stroke[] = [];
  const walk = walking(player);
  chords.forEach((placed, k) => {
    if (placed.chord === null || style === "none") return;
    // A comping hand lays out now and then.
    if (!free && k > 0 && style !== "walking" && random.chance(0.07)) return;
    const held = heldChord(placed, placed.chord, chords[k + 1]?.chord ?? placed.chord, k === 0, player);
    if (style === "walking") strokes.push(...walk(held));
    else if (style === "three on four") strokes.push(...threeOnFour(held, player));
    else if (style === "oom-pah") strokes.push(...oomPah(held, player));
    else
      strokes.push(
        ...struck(held, style === "shells" ? shells(held, player) : voicing(held, player), player),
      );
  });
  return strokes.map((stroke) => ({ ...stroke, hand: "left" }));
}

function heldChord(
  { start, beats }: Placed,
  chord: Chord,
  following: Chord,
  isFirst: boolean,
  { beat }: Player,
): Held {
  const classOf = (tone: Chord["tones"][number]) => (chord.rootClass + tone.semitones) % 12;
  return {
    ...{ chord, following, start, beats, isFirst },
    count: Math.max(1, Math.round(beats / beat)),
    tones: chord.tones.map(classOf),
    guide: chord.tones.filter(({ role }) => role === "third" || role === "seventh").map(classOf),
  };
}

/** The bass goes on from chord to chord: a tone on each beat, and a step into the next chord. */
function walking({ random, around, beat }: Player): (held: Held) => Stroke[] {
  let bass = around - 10;
  return ({ chord, following, start, count, tones }) => {
    const strokes: Stroke[] = [];
    for (let b = 0; b < count; b++) {
      let target = b === 0 ? chord.bassClass : random.pick(tones);
      if (b === count - 1 && b > 0 && random.chance(0.6))
        target = (following.bassClass + random.pick([-1, 1, 2, 7]) + 12) % 12;
      bass = near(target, bass);
      if (bass < around - 20) bass += 12;
      if (bass > around + 2) bass -= 12;
      strokes.push({ position: start + b * beat, beats: beat * 0.9, pitch: bass });
      if (random.chance(0.05))
        strokes.push({ position: start + (b + 0.5) * beat, beats: beat * 0.3, pitch: bass });
    }
    return strokes;
  };
}

function shells({ chord, guide }: Held, { around }: Player): number[] {
  const root = near(chord.bassClass, around - 8);
  return [root, ...guide.map((p) => near(p, root + 8)).filter((p) => p > root)];
}

function voicing({ chord, tones, guide }: Held, { around }: Player): number[] {
  const classes = new Set([...guide, (chord.rootClass + 2) % 12, tones[2] ?? tones[0]!]);
  return [...classes].map((p) => near(p, around + 4));
}

/** A voicing struck in one of the usual patterns, now and then already before the bar line. */
function struck(held: Held, keys: readonly number[], { random, compound, free }: Player): Stroke[] {
  const { start, beats, isFirst } = held;
  const pattern = random.pick(patterns(beats, free));
  return pattern.flatMap((at, p) => {
    const snapped = compound ? Math.round(at * 2) / 2 : at;
    // A chord struck an eighth before the bar line already belongs to the next chord.
    const early =
      p === 0 && !isFirst && snapped === 0 && !compound && !free && random.chance(0.22) ? -0.5 : 0;
    const until = pattern[p + 1] ?? beats;
    const again = p > 0 && random.chance(0.3) ? varied(keys, random) : keys;
    return again.map((pitch) => ({
      position: start + snapped + early,
      beats: Math.max(0.3, (until - at) * random.between(0.4, 0.95)),
      pitch,
    }));
  });
}

/** Beats after the chord's beginning on which it is struck. */
function patterns(beats: number, free: boolean): number[][] {
  if (beats >= 4) return [[0], [0, 1.5], [0, 2], [0, 1.5, 3], ...(free ? [] : [[0.5, 2.5]]), [0, 1, 2, 3]];
  return beats >= 3 ? [[0], [0, 1.5], [0, 1, 2]] : [[0], [0, beats / 2]];
}

/** The same chord struck again otherwise: its lowest note an octave higher, or a note less [practice]. */
function varied(keys: readonly number[], random: Random): number[] {
  if (keys.length < 3 || random.chance(0.5)) return [...keys.slice(1), keys[0]! + 12];
  const without = random.whole(0, keys.length - 1);
  return keys.filter((_, k) => k !== without);
}

/** Strokes every three eighths, whatever the bar: the pattern meets the bar line again after three bars. */
function threeOnFour({ chord, start, beats, guide }: Held, { around }: Player): Stroke[] {
  const root = near(chord.bassClass, around - 8);
  const keys = [root, ...guide.map((p) => near(p, root + 8))];
  const strokes: Stroke[] = [];
  for (let at = Math.ceil(start / 1.5 - 1e-9) * 1.5; at < start + beats - 1e-9; at += 1.5) {
    strokes.push(...keys.map((pitch) => ({ position: at, beats: 1, pitch })));
  }
  return strokes;
}

/** The bass on the strong beats, the chord on the others. */
function oomPah({ chord, start, count, tones, guide }: Held, { around, beat }: Player): Stroke[] {
  const root = near(chord.bassClass, around - 12);
  const fifth = near(tones[2] ?? tones[0]!, root);
  const upper = (guide.length > 1 ? guide : tones.slice(0, 3)).map((p) => near(p, around + 4));
  return Array.from({ length: count }, (_, b) => {
    const position = start + b * beat;
    const isBass = b % 2 === 0 && !(count === 3 && b === 2);
    return isBass
      ? [{ position, beats: beat * 0.8, pitch: b === 0 ? root : fifth }]
      : upper.map((pitch) => ({ position, beats: beat * 0.5, pitch }));
  }).flat();
}
