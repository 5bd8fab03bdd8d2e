import { type Chord, type Degree, degreeSemitones } from "../chart/index.ts";
import type { HandShape } from "../hands/shape.ts";
import { isBlackKey } from "../pitch/index.ts";
import type { Finger } from "../take/index.ts";
import { fingerName } from "../words/index.ts";
import type { ExercisePlacement } from "./exercise.ts";

/** A shape standing on a chord, at one pitch. */
export interface Stand {
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
export function standsOf(shape: HandShape, chord: Chord, low = LOWEST, high = HIGHEST): Stand[] {
  const stands: Stand[] = [];
  const offset = shape.semitones[shape.fingers.indexOf(shape.anchorFinger)]!;
  for (const { degree, qualities } of shape.anchorDegrees) {
    if (qualities.length > 0 && !qualities.includes(chord.quality)) continue;
    const anchorClass = (chord.rootClass + degreeSemitones(degree)) % 12;
    for (let anchor = low; anchor <= high; anchor++) {
      if ((anchor - anchorClass) % 12 !== 0) continue;
      const keys = shape.semitones.map((semitones) => anchor - offset + semitones);
      if (keys[0]! < low || keys[keys.length - 1]! > high) continue;
      stands.push({ shape, degree, anchorPitch: anchor, keys, fingers: shape.fingers });
    }
  }
  return stands.sort((a, b) => a.anchorPitch - b.anchorPitch);
}

/** One stand for each anchor degree: the one nearest to a pitch. */
export function standsNear(shape: HandShape, chord: Chord, pitch: number): Stand[] {
  const nearest = new Map<Degree, Stand>();
  for (const stand of standsOf(shape, chord)) {
    const known = nearest.get(stand.degree);
    if (known === undefined || Math.abs(middle(stand) - pitch) < Math.abs(middle(known) - pitch)) {
      nearest.set(stand.degree, stand);
    }
  }
  return [...nearest.values()].sort((a, b) => a.anchorPitch - b.anchorPitch);
}

export function keyOf(stand: Stand, finger: Finger): number | null {
  const index = stand.fingers.indexOf(finger);
  return index < 0 ? null : stand.keys[index]!;
}

export function placementOf(stand: Stand): ExercisePlacement {
  return {
    shape: stand.shape.name,
    anchorFinger: stand.shape.anchorFinger,
    anchorPitch: stand.anchorPitch,
    anchorDegree: stand.degree,
  };
}

const DEGREE_NAMES: Partial<Record<Degree, string>> = {
  "1": "root",
  "5": "fifth",
  b3: "third",
  "3": "third",
};

/** "index on the fifth". */
export function standInWords(stand: Stand): string {
  return `${fingerName(stand.shape.anchorFinger)} on the ${DEGREE_NAMES[stand.degree] ?? stand.degree}`;
}

/** Key that the ring finger can fall into from a black key, or null: black, and white a half step above. */
export function slideOf(stand: Stand): { from: number; to: number } | null {
  const from = keyOf(stand, 4);
  return from !== null && isBlackKey(from) && !isBlackKey(from + 1) ? { from, to: from + 1 } : null;
}

function middle(stand: Stand): number {
  return (stand.keys[0]! + stand.keys[stand.keys.length - 1]!) / 2;
}
