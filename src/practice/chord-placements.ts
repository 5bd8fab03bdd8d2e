import { type Chord, type Degree, degreeSemitones } from "../chart/index.ts";
import type { HandShape } from "../hands/shape.ts";
import { isBlackKey } from "../pitch/index.ts";
import type { Finger } from "../take/index.ts";
import { fingerName } from "../words/index.ts";
import type { ExercisePlacement } from "./exercise.ts";

/** A shape standing on a chord, at one pitch. */
export interface ChordPlacement {
  readonly shape: HandShape;
  readonly degree: Degree;
  readonly anchorPitch: number;
  /** MIDI numbers under the fingers, rising. */
  readonly keys: readonly number[];
  readonly fingers: readonly Finger[];
}

/** Right-hand exercises stay between these keys: clear of the left hand, inside the treble staff and a little above. */
const LOWEST = 58;
const HIGHEST = 86;

/** Every place of the shape on the chord, from low to high. */
export function placementsOn(shape: HandShape, chord: Chord, low = LOWEST, high = HIGHEST): ChordPlacement[] {
  const placements: ChordPlacement[] = [];
  const offset = shape.semitones[shape.fingers.indexOf(shape.anchorFinger)]!;
  for (const { degree, qualities } of shape.anchorDegrees) {
    if (qualities.length > 0 && !qualities.includes(chord.quality)) continue;
    const anchorClass = (chord.rootClass + degreeSemitones(degree)) % 12;
    for (let anchor = low; anchor <= high; anchor++) {
      if ((anchor - anchorClass) % 12 !== 0) continue;
      const keys = shape.semitones.map((semitones) => anchor - offset + semitones);
      if (keys[0]! < low || keys[keys.length - 1]! > high) continue;
      placements.push({ shape, degree, anchorPitch: anchor, keys, fingers: shape.fingers });
    }
  }
  return placements.sort((a, b) => a.anchorPitch - b.anchorPitch);
}

/** One placement for each anchor degree: the one nearest to a pitch. */
export function placementsNear(shape: HandShape, chord: Chord, pitch: number): ChordPlacement[] {
  const nearest = new Map<Degree, ChordPlacement>();
  for (const placement of placementsOn(shape, chord)) {
    const known = nearest.get(placement.degree);
    if (known === undefined || Math.abs(middle(placement) - pitch) < Math.abs(middle(known) - pitch)) {
      nearest.set(placement.degree, placement);
    }
  }
  return [...nearest.values()].sort((a, b) => a.anchorPitch - b.anchorPitch);
}

export function keyOf(placement: ChordPlacement, finger: Finger): number | null {
  const index = placement.fingers.indexOf(finger);
  return index < 0 ? null : placement.keys[index]!;
}

export function exercisePlacement(placement: ChordPlacement): ExercisePlacement {
  return {
    shape: placement.shape.name,
    anchorFinger: placement.shape.anchorFinger,
    anchorPitch: placement.anchorPitch,
    anchorDegree: placement.degree,
  };
}

const DEGREE_NAMES: Partial<Record<Degree, string>> = {
  "1": "root",
  "5": "fifth",
  b3: "third",
  "3": "third",
};

/** "index on the fifth". */
export function placementInWords(placement: ChordPlacement): string {
  return `${fingerName(placement.shape.anchorFinger)} on the ${placeInWords(placement)}`;
}

/** "fifth" */
export function placeInWords({ degree }: ChordPlacement): string {
  return DEGREE_NAMES[degree] ?? degree;
}

/** Key that the ring finger can fall into from a black key, or null: black, and white a half step above. */
export function slideOf(placement: ChordPlacement): { from: number; to: number } | null {
  const from = keyOf(placement, 4);
  return from !== null && isBlackKey(from) && !isBlackKey(from + 1) ? { from, to: from + 1 } : null;
}

function middle(placement: ChordPlacement): number {
  return (placement.keys[0]! + placement.keys[placement.keys.length - 1]!) / 2;
}
