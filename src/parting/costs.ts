/**
 * What it costs a pair of hands to share notes in a certain way. Costs are a pianist's common sense [practice]: a
 * comfortable reach is an octave, a tenth is possible (Parncutt et al. 1997 give 15 semitones as the most; 16 with a large hand), the hand
 * travels little in little time, the hands keep their sides unless the music makes them cross, and each hand goes
 * on doing what it does. The weights were set on simulated takes (seeds 101 to 140); the report `parting` measures
 * others.
 */

import type { CorrectedFacts } from "../take/index.ts";

/** What the parting needs to know of a note; seconds and MIDI numbers. */
export interface PartedInput {
  readonly pitch: number;
  readonly onset: number;
  /** Time that the key is held, in seconds. */
  readonly duration: number;
  readonly velocity?: number;
  /** What is known of its hand; the path around it follows. */
  readonly corrected?: CorrectedFacts | null;
}

/** Costs in one currency; a cost of 1 is about what a doubtful decision is worth. */
export const PARTING_COSTS = {
  /** Notes struck within this time (seconds) are one reach of the hand. */
  group: 0.03,
  /** Semitones that a hand reaches without cost, and the price of each further one. */
  comfortable: 13,
  stretch: 0.8,
  /** Semitones beyond which hardly a hand reaches, and the price of each further one. */
  possible: 16,
  beyond: 4,
  /** Each note beyond five in one hand. */
  sixthFinger: 8,
  /** Each semitone that the middle of the hand travels beyond what lies under the fingers, up to a leap. */
  underFingers: 1.7,
  travel: 0.1,
  leap: 30,
  /** Seconds after which the price of travel is forgotten, all but this share. */
  forget: 0.3,
  remembered: 0.3,
  /** Semitones that a hand gets to in no time and in a second (an octave is some 165 mm), and the price beyond. */
  atHand: 8,
  speed: 70,
  tooFast: 0.6,
  /** The same for a hand that struck just before (within `quick` seconds), which has no time to travel. */
  hurry: 0.08,
  quick: 0.05,
  /** Share of the price of travel for a rolled chord: upward, within so many seconds. */
  rolled: 0.3,
  roll: 0.07,
  /** Striking while holding other keys: each held key beyond one. */
  holding: 1.4,
  /** Notes struck together by one hand but held for unlike times: for each doubling of the length. */
  ragged: 1.4,
  /** Each semitone on the wrong side of the take's own middle. */
  side: 0.07,
  /** Semitones beyond which the wrong side is not more wrong: a hand that has crossed may as well go far. */
  sideMost: 9,
  /** Share of that price for a hand that is there already. */
  sideStays: 0.4,
  /** Crossing the other hand, and each stroke while the hands are crossed. */
  crossing: 1,
  crossed: 0.1,
  /** Seconds between strokes of the two hands within which they can be in each other's way. */
  atOnce: 1,
  /** Each key struck between the keys of the other hand. */
  entangled: 0.4,
  /** Striking a key that the other hand holds down. */
  sameKey: 3,
  /** Weight of what each hand does elsewhere in the take: how many keys a stroke, how long, how loud, and where. */
  roleSize: 0.4,
  roleLength: 0.7,
  roleLoudness: 0.4,
  rolePlace: 0.6,
  /** Share of the price of the wrong side that is left once the hands' own places are known. */
  sideKnown: 0.5,
} as const;
