import { bisectRight } from "d3-array";
/** What the comping hand plays in each stretch of a take, as weights of pitch classes. */
import type { Note } from "../take/index.ts";

export interface Heard {
  /** Weight of each pitch class, 0 to 11; they add up to 1, or to 0 where nothing is played. */
  readonly classes: readonly number[];
  /** Weight of each pitch class in the bass; they add up to at most 1. */
  readonly bass: readonly number[];
  /** Weight of all that is played, before it was made to add up to 1: 0 is silence. */
  readonly weight: number;
}

/** Below this MIDI number a note is all bass, and none an octave above it. [practice] */
const BASS = 45;

/** A note struck within this share of a stretch before a boundary is heard with what follows. */
const EARLY = 0.3;

/** What a note's onset weighs beside its length, so that short stabs count. */
const ONSET_WEIGHT = 0.25;

/**
 * A note struck after this share of its stretch weighs less in it: a walking bass has the root on the strong beats
 * and steps to the next one between them. [practice]
 */
const DOWNBEAT = 0.3;
const WEAK_PLACE = 0.5;

/**
 * The weights of pitch classes in each of the stretches between `boundaries` (seconds, rising). Notes struck shortly
 * before a boundary and held over it are heard as anticipations of what follows.
 */
export function hearStretches(notes: readonly Note[], boundaries: readonly number[]): Heard[] {
  const count = Math.max(boundaries.length - 1, 0);
  const classes = Array.from({ length: count }, () => new Array<number>(12).fill(0));
  const bass = Array.from({ length: count }, () => new Array<number>(12).fill(0));
  for (const note of notes) {
    const pitchClass = note.pitch % 12;
    const depth = Math.min(1, Math.max(0, (BASS + 12 - note.pitch) / 12));
    for (const [stretch, weight] of stretchesOf(note, boundaries)) {
      classes[stretch]![pitchClass]! += weight;
      bass[stretch]![pitchClass]! += weight * depth;
    }
  }
  return classes.map((weights, index) => {
    const weight = sum(weights);
    const low = Math.max(sum(bass[index]!), weight / 4);
    return {
      classes: weights.map((value) => (weight === 0 ? 0 : value / weight)),
      bass: bass[index]!.map((value) => (low === 0 ? 0 : value / low)),
      weight,
    };
  });
}

/** The mean of what is heard at the same place of several choruses, by weight. */
export function meanHeard(all: readonly Heard[]): Heard {
  const weight = sum(all.map((heard) => heard.weight));
  const mean = (of: (heard: Heard) => readonly number[]) =>
    Array.from({ length: 12 }, (_, pitchClass) =>
      weight === 0 ? 0 : sum(all.map((heard) => of(heard)[pitchClass]! * heard.weight)) / weight,
    );
  return { classes: mean((heard) => heard.classes), bass: mean((heard) => heard.bass), weight };
}

/** The stretches in which a note is heard, each with its weight. */
function* stretchesOf(note: Note, boundaries: readonly number[]): Generator<[number, number]> {
  const last = boundaries.length - 2;
  const end = note.onset + note.duration;
  let stretch = bisectRight(boundaries, note.onset) - 1;
  if (stretch > last) return;
  let onset = note.onset;
  if (stretch < 0) {
    if (end <= boundaries[0]!) return;
    stretch = 0;
    onset = boundaries[0]!;
  }
  const length = boundaries[stretch + 1]! - boundaries[stretch]!;
  const before = boundaries[stretch + 1]! - onset;
  if (stretch < last && before < EARLY * length && end - boundaries[stretch + 1]! > before / 2) {
    onset = boundaries[stretch + 1]!;
    stretch += 1;
  }
  const stretchLength = boundaries[stretch + 1]! - boundaries[stretch]!;
  const weak = onset - boundaries[stretch]! > DOWNBEAT * stretchLength;
  let struck = ONSET_WEIGHT;
  let emphasis = weak ? WEAK_PLACE : 1;
  for (; stretch <= last && boundaries[stretch]! < end; stretch++) {
    const [from, to] = [Math.max(onset, boundaries[stretch]!), Math.min(end, boundaries[stretch + 1]!)];
    const share = Math.max(0, to - from) / (boundaries[stretch + 1]! - boundaries[stretch]!);
    yield [stretch, emphasis * (share + struck)];
    struck = 0;
    emphasis = 1;
  }
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
