/**
 * What the account of a hand costs. One point is about one natural logarithm of odds: an event that a player does
 * once in twenty times costs three. The best account of a solo is the cheapest one.
 */
export const PLACEMENT_COSTS = {
  /** A note under a finger, times the logarithm of the number of fingers: a small shape explains more by its choice. */
  held: 0.5,
  /** A note that the hand plays without its shape. */
  outside: 5.2,
  /** A note outside that no free finger can reach from where the hand stands. */
  outOfReach: 2.4,
  /** Two keys struck with one finger, black to white, a half step apart: on a short note, and on a long one. */
  slide: { short: 0.4, long: 5 },
  /** The hand moves while it plays: to begin with, and for each semitone; not more than `most` semitones count. */
  shift: { base: 2.9, perSemitone: 0.07, most: 24 },
  /** The hand moves in a rest. */
  freeShift: { base: 2, perSemitone: 0.01, most: 24 },
  /** An ergonomic point (`line-weights.ts`), and the most that one finger after another costs. */
  ergonomic: 0.06,
  mostPair: 2.5,
  /** Share of what a free note costs that is left where a run is known by heart. */
  byHeart: 0.05,
  /** Share of what a finger costs on its key that is left in a placement. */
  lying: 0.5,
  /** The place on the chord that sounds: one of the shape's own, all keys in the chord's scale, or neither. */
  unidiomatic: [0, 2.8, 6.9],
  /** The hand stays while the chord changes to one on which the placement is not idiomatic. */
  lateStay: 2.3,
  /** From one finger of the placement to the next that plays: the same, its neighbour, one left out, two, three. */
  fingerStep: [1, 0, 0.4, 0.65, 1.5],
  /** The little finger joins the shape, or leaves it, with the hand in its place. */
  extraFinger: 0.4,
  /** A key played again with another finger. */
  fingerChange: 0.3,
  /** A shape that the player is said to know; and a passage that is played free though shapes are known. */
  shapeKnown: 5,
  lapse: 3,
  /** Alternatives up to this much dearer are kept. */
  alternatives: 2,
} as const;

/**
 * What the free hand costs: each note; by so much a placement must be better than it, fingers and all; and by so much
 * more where no chord sounds, since a shape that may stand anywhere fits anything a little.
 */
export interface Freedom {
  readonly note: number;
  readonly margin: number;
  readonly anywhere: number;
  /** What it counts for a shape that it stands where it may on the chord: by chance it would once in six times. */
  readonly own: number;
}

/**
 * Where shapes are only offered, a free note is one of seven or eight keys that could as well come next; where the
 * player is known to use them, playing outside of all of them is rare.
 */
export const FREEDOM: Readonly<Record<"offered" | "known", Freedom>> = {
  offered: { note: 2, margin: 3, anywhere: 6, own: 2 },
  known: { note: 4.2, margin: 2.6, anywhere: 0, own: 0 },
};

/**
 * Silence before a note, in seconds, from which the hand begins to move freely, and at which it is free:
 * of a few pairs that were tried, on points that were drawn without each score, the one under which its printed
 * fingers are met most often; its neighbours do as well within what chance moves, 0.12 and 0.6 a little worse.
 */
export const REST_SECONDS = { from: 0.03, free: 0.25 } as const;

/** Time between two onsets, in seconds, from which a held note no longer binds the hand, and at which it is free. */
export const SLOW_SECONDS = { from: 0.5, free: 1.6 } as const;

/** A note up to this long, in seconds, before the next one can be slid off. */
export const SLIDE_SECONDS = 0.16;
