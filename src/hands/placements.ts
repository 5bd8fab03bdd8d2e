import { type Chord, type Degree, degreeSemitones } from "../chart/index.ts";
import { mod12 } from "../pitch/index.ts";
import type { Finger, Hand } from "../take/index.ts";
import type { HandShape } from "./shape.ts";

/** A shape as one hand holds it. Keys rise from left to right, whichever the hand. */
export interface HeldShape {
  readonly shape: HandShape;
  readonly hand: Hand;
  /** Semitones above the lowest key, rising from 0. */
  readonly semitones: readonly number[];
  /** Fingers of this hand on those keys. */
  readonly fingers: readonly Finger[];
  /** Index of the anchor finger's key. */
  readonly anchor: number;
}

/**
 * The shape in one hand. The left hand takes the same keys with mirrored fingers (thumb on the highest key, finger f
 * becomes 6 - f), so that the notes, and what they mean on the chord, stay what they are.
 *
 * @example heldShape(thirdAndSteps, "left").fingers   // [5, 4, 3, 2]
 */
export function heldShape(shape: HandShape, hand: Hand): HeldShape {
  const fingers = shape.fingers.map((finger) => (hand === "right" ? finger : mirrorFinger(finger)));
  return {
    shape,
    hand,
    semitones: shape.semitones,
    fingers,
    anchor: shape.fingers.indexOf(shape.anchorFinger),
  };
}

function mirrorFinger(finger: Finger): Finger {
  return (6 - finger) as Finger;
}

/**
 * The key that the other hand would strike in a mirror standing on the keyboard's symmetry axis, middle D (62):
 * black keys stay black. With it all that is known of the right hand holds for the left.
 */
export function mirrorPitch(pitch: number): number {
  return 124 - pitch;
}

/** A held shape at one pitch. */
export interface Placement {
  readonly held: HeldShape;
  /** MIDI number of the lowest key. */
  readonly low: number;
}

/** MIDI numbers of the keys under the fingers, rising. */
export function keysOf(placement: Placement): number[] {
  return placement.held.semitones.map((semitones) => placement.low + semitones);
}

/** MIDI number of the key under the anchor finger. */
export function anchorPitch(placement: Placement): number {
  return placement.low + placement.held.semitones[placement.held.anchor]!;
}

/** The degree of each semitone above a root where the chord itself does not say. */
const PLAIN_DEGREES: readonly Degree[] = [
  "1",
  "b9",
  "9",
  "b3",
  "3",
  "11",
  "#11",
  "5",
  "b13",
  "13",
  "b7",
  "7",
];

/** Degree of a pitch or pitch class against a chord: the chord's own name for its tones, the plain one for others. */
export function degreeOn(chord: Chord, pitch: number): Degree {
  const semitones = mod12(pitch - chord.rootClass);
  return chord.tones.find((tone) => tone.semitones === semitones)?.degree ?? PLAIN_DEGREES[semitones]!;
}

/** True where the shape may stand on the chord with its anchor on this pitch. */
export function fitsChord(shape: HandShape, anchor: number, chord: Chord): boolean {
  const semitones = mod12(anchor - chord.rootClass);
  return shape.anchorDegrees.some(
    ({ degree, qualities }) =>
      degreeSemitones(degree) === semitones && (qualities.length === 0 || qualities.includes(chord.quality)),
  );
}
