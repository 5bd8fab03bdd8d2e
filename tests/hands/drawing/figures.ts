/**
 * Figures with the fingers that every method gives them, as examples to draw points by: five-finger positions and the
 * first two exercises of Hanon, "The Virtuoso Pianist"; its thirds and repeated notes [memory]; close triads and the
 * broken chords of an accompaniment, and octaves [practice]. What tests ask about are other keys, lengths and speeds.
 */
import { mirrorPitch } from "../../../src/hands/placements.ts";
import type { Finger, Hand } from "../../../src/take/index.ts";

export interface Figure {
  readonly name: string;
  readonly hand: Hand;
  /** Keys of every moment as the right hand sees them, rising, and their fingers. */
  readonly moments: readonly { readonly keys: readonly number[]; readonly fingers: readonly Finger[] }[];
}

const MAJOR = [0, 2, 4, 5, 7, 9, 11];
/** MIDI number of the n-th step of C major above middle C. */
const white = (n: number) => 60 + 12 * Math.floor(n / 7) + MAJOR[((n % 7) + 7) % 7]!;

function line(name: string, keys: readonly number[], fingers: string, hand: Hand = "right"): Figure {
  const moments = keys.map((key, i) => ({
    keys: [hand === "right" ? key : mirrorPitch(key)],
    fingers: [Number(fingers[i]) as Finger],
  }));
  return { name, hand, moments };
}

const TONICS = Array.from({ length: 12 }, (_, k) => 60 + k);

const positions = TONICS.map((tonic) =>
  line(
    "five-finger position",
    [0, 2, 4, 5, 7, 5, 4, 2, 0].map((step) => tonic + step),
    "123454321",
  ),
);

const exercise = (name: string, steps: readonly number[], fingers: string) =>
  line(
    name,
    Array.from({ length: 7 }, (_, bar) => steps.map((step) => white(bar + step))).flat(),
    fingers.repeat(7),
  );

const thirds: Figure[] = TONICS.slice(0, 7).map((_, from) => ({
  name: "thirds",
  hand: "right",
  moments: ([1, 2, 3, 1, 2, 3] as Finger[]).map((finger, n) => ({
    keys: [white(from + n), white(from + n + 2)],
    fingers: [finger, (finger + 2) as Finger],
  })),
}));

const repeats = ["321", "4321"].flatMap((fingers) =>
  [0, 1, 2, 3, 4, 5, 6].map((step) =>
    line(
      "repeated notes",
      [...fingers, ...fingers].map((_, i) => white(step + (i < fingers.length ? 0 : 1))),
      fingers + fingers,
    ),
  ),
);

const accompaniments = TONICS.map((tonic) =>
  line(
    "broken chord",
    [0, 7, 4, 7, 0, 7, 4, 7].map((step) => tonic - 12 + step),
    "51315131",
    "left",
  ),
);

/** Semitones of close triads from the thumb's side, with the finger in the middle. */
const TRIADS: readonly (readonly [number, number, Finger])[] = [
  [4, 7, 3],
  [3, 8, 2],
  [5, 9, 3],
  [3, 7, 3],
  [4, 9, 2],
  [5, 8, 3],
];

const triads = TRIADS.flatMap(([middle, outer, finger]) =>
  TONICS.map((key): Figure => {
    const moment = { keys: [key, key + middle, key + outer], fingers: [1, finger, 5] as Finger[] };
    return { name: "triad", hand: "right", moments: [moment] };
  }),
);

const octaves: Figure = {
  name: "octaves",
  hand: "right",
  moments: [0, 1, 2, 3, 4, 5, 6, 7].map((step) => ({
    keys: [white(step), white(step + 7)],
    fingers: [1, 5],
  })),
};

export const FIGURES: readonly Figure[] = [
  ...positions,
  exercise("Hanon no. 1", [0, 2, 3, 4, 5, 4, 3, 2], "12345432"),
  exercise("Hanon no. 2", [0, 2, 5, 4, 3, 4, 3, 2], "12543432"),
  ...thirds,
  ...repeats,
  ...accompaniments,
  ...triads,
  octaves,
];
