import type { Quality } from "../chart/index.ts";
import type { HandShape } from "./shape.ts";

/** Chords with a minor third and a perfect fifth. */
const MINOR: readonly Quality[] = ["minor", "minor-seventh", "minor-sixth", "minor-major"];

/** Chords with a major third and a perfect fifth. */
const MAJOR: readonly Quality[] = ["major", "major-seventh", "sixth", "dominant"];

/**
 * The shapes that every hand knows before a teacher adds others, right hand. The first two put a whole step and a
 * half step beside a minor third, so that the fourth finger lies a half step under the major third of a chord on
 * whose root the index finger stands. The others are the five-finger positions and pentatonics of any method book.
 */
export const BUILT_IN_SHAPES: readonly HandShape[] = [
  {
    name: "third-and-steps",
    fingers: [1, 2, 3, 4],
    semitones: [0, 3, 5, 6],
    anchorFinger: 2,
    anchorDegrees: [
      { degree: "1", qualities: ["dominant", ...MINOR] },
      { degree: "5", qualities: ["dominant", ...MINOR] },
    ],
  },
  {
    name: "third-steps-third",
    fingers: [1, 2, 3, 4, 5],
    semitones: [0, 3, 5, 6, 10],
    anchorFinger: 2,
    anchorDegrees: [
      { degree: "1", qualities: ["dominant", ...MINOR] },
      { degree: "5", qualities: ["dominant", ...MINOR] },
    ],
  },
  {
    name: "five-finger major",
    fingers: [1, 2, 3, 4, 5],
    semitones: [0, 2, 4, 5, 7],
    anchorFinger: 1,
    anchorDegrees: [{ degree: "1", qualities: [...MAJOR, "suspended", "power"] }],
  },
  {
    name: "five-finger minor",
    fingers: [1, 2, 3, 4, 5],
    semitones: [0, 2, 3, 5, 7],
    anchorFinger: 1,
    anchorDegrees: [{ degree: "1", qualities: [...MINOR, "power"] }],
  },
  {
    name: "minor pentatonic",
    fingers: [1, 2, 3, 4, 5],
    semitones: [0, 3, 5, 7, 10],
    anchorFinger: 1,
    anchorDegrees: [{ degree: "1", qualities: ["dominant", ...MINOR, "power"] }],
  },
  {
    name: "major pentatonic",
    fingers: [1, 2, 3, 4, 5],
    semitones: [0, 2, 4, 7, 9],
    anchorFinger: 1,
    anchorDegrees: [{ degree: "1", qualities: [...MAJOR, "power"] }],
  },
];
