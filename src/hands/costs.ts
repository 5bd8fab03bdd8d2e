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
  /** The thumb passes under, or a finger over it: the usual way to move along a run. */
  thumbPass: -0.05,
  /** Two fingers that do not follow each other easily across a shift. */
  awkwardPair: 0.25,
  /** One finger leaves a key and strikes the next one elsewhere. */
  sameFinger: 0.8,
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
  /** The hand plays free of any shape: to begin with, and for each note. */
  free: { entry: 2, note: 4.2 },
  /** A shape that the player is said to know; and the most that a stay may lose by leaving one out. */
  shapeKnown: 5,
  mostExtra: 12,
  /** Alternatives up to this much dearer are kept. */
  alternatives: 2,
} as const;

/** Silence before a note, in seconds, from which the hand begins to move freely, and at which it is free. */
export const REST_SECONDS = { from: 0.12, free: 0.6 } as const;

/** Time between two onsets, in seconds, from which a held note no longer binds the hand, and at which it is free. */
export const SLOW_SECONDS = { from: 0.5, free: 1.6 } as const;

/** A note up to this long, in seconds, before the next one can be slid off. */
export const SLIDE_SECONDS = 0.16;
