import type { Chord, Quality } from "../../src/chart/index.ts";
import type { Finger } from "../../src/take/index.ts";
import { above } from "./harmony.ts";

/** A shape of the hand as the class teaches it; a second, independent statement of the built-in ones. */
interface ClassShape {
  readonly name: string;
  readonly fingers: readonly Finger[];
  /** Semitones above the thumb. */
  readonly keys: readonly number[];
  readonly anchor: Finger;
}

const THIRD_AND_STEPS: ClassShape = {
  name: "third-and-steps",
  fingers: [1, 2, 3, 4],
  keys: [0, 3, 5, 6],
  anchor: 2,
};
const MINOR_PENTATONIC: ClassShape = {
  name: "minor pentatonic",
  fingers: [1, 2, 3, 4, 5],
  keys: [0, 3, 5, 7, 10],
  anchor: 1,
};
const MAJOR_PENTATONIC: ClassShape = {
  name: "major pentatonic",
  fingers: [1, 2, 3, 4, 5],
  keys: [0, 2, 4, 7, 9],
  anchor: 1,
};
const FIVE_MAJOR: ClassShape = {
  name: "five-finger major",
  fingers: [1, 2, 3, 4, 5],
  keys: [0, 2, 4, 5, 7],
  anchor: 1,
};
const FIVE_MINOR: ClassShape = {
  name: "five-finger minor",
  fingers: [1, 2, 3, 4, 5],
  keys: [0, 2, 3, 5, 7],
  anchor: 1,
};

/** A shape at one pitch. */
export interface Place {
  readonly shape: string;
  readonly anchorFinger: Finger;
  readonly anchorPitch: number;
  readonly keys: readonly number[];
  readonly fingers: readonly Finger[];
}

/** A shape and the semitones above the root on which its anchor finger stands. */
type Stand = readonly [ClassShape, number];

const DOMINANT: readonly Stand[] = [
  [THIRD_AND_STEPS, 0],
  [THIRD_AND_STEPS, 7],
];
const MINOR: readonly Stand[] = [
  [THIRD_AND_STEPS, 0],
  [MINOR_PENTATONIC, 0],
];
const MAJOR: readonly Stand[] = [[MAJOR_PENTATONIC, 0]];
/** Index on the minor third: root, third, fourth and flat fifth. */
const HALF_DIMINISHED: readonly Stand[] = [[THIRD_AND_STEPS, 3]];

/** Where the class puts the hand on a chord, the place on the root first. */
function standsOn(quality: Quality): readonly Stand[] {
  switch (quality) {
    case "dominant":
    case "suspended":
    case "augmented":
      return DOMINANT;
    case "minor":
    case "minor-seventh":
    case "minor-sixth":
    case "minor-major":
      return MINOR;
    case "half-diminished":
    case "diminished":
    case "diminished-seventh":
      return HALF_DIMINISHED;
    case "major":
    case "major-seventh":
    case "sixth":
    case "augmented-major":
    case "power":
      return MAJOR;
  }
}

/** Lowest key of the right hand: the left hand ends below it. */
const LOWEST = 60;
const HIGHEST = 89;

const known = new WeakMap<Chord, Map<string, readonly Place[]>>();

/** All places of a chord on the right hand's part of the keyboard, rising. Worked out once for each chord. */
export function placesOn(chord: Chord, which: "all" | "root"): readonly Place[] {
  const ofChord = known.get(chord) ?? new Map<string, readonly Place[]>();
  known.set(chord, ofChord);
  const before = ofChord.get(which);
  if (before !== undefined) return before;
  const stands = which === "all" ? standsOn(chord.quality) : standsOn(chord.quality).slice(0, 1);
  const places = stands
    .flatMap(([shape, semitones]) => standing(shape, chord.rootClass + semitones))
    .sort((a, b) => a.keys[0]! - b.keys[0]!);
  ofChord.set(which, places);
  return places;
}

/** The five-finger position on the chord's root, for those who practise scales. */
export function scalePlacesOn(chord: Chord): Place[] {
  const minor = chord.tones.some((tone) => tone.role === "third" && tone.semitones === 3);
  return standing(minor ? FIVE_MINOR : FIVE_MAJOR, chord.rootClass);
}

/** True where the place is one that the class uses on this chord. */
export function standsWell(place: Place, chord: Chord, which: "all" | "root"): boolean {
  const stands = which === "all" ? standsOn(chord.quality) : standsOn(chord.quality).slice(0, 1);
  return stands.some(
    ([shape, semitones]) => shape.name === place.shape && above(chord, place.anchorPitch) === semitones,
  );
}

export function fingerAt(place: Place, pitch: number): Finger | null {
  const index = place.keys.indexOf(pitch);
  return index < 0 ? null : place.fingers[index]!;
}

export function keyUnder(place: Place, finger: Finger): number | null {
  const index = place.fingers.indexOf(finger);
  return index < 0 ? null : place.keys[index]!;
}

export function isBlack(pitch: number): boolean {
  return [1, 3, 6, 8, 10].includes(((pitch % 12) + 12) % 12);
}

function standing(shape: ClassShape, anchorClass: number): Place[] {
  const offset = shape.keys[shape.fingers.indexOf(shape.anchor)]!;
  const places: Place[] = [];
  for (let anchor = 48; anchor <= 96; anchor++) {
    if ((((anchor - anchorClass) % 12) + 12) % 12 !== 0) continue;
    const keys = shape.keys.map((key) => anchor - offset + key);
    if (keys[0]! < LOWEST || keys[keys.length - 1]! > HIGHEST) continue;
    places.push({
      shape: shape.name,
      anchorFinger: shape.anchor,
      anchorPitch: anchor,
      keys,
      fingers: shape.fingers,
    });
  }
  return places;
}
