/**
 * Fingerings that every pianist has learnt by heart: scales, arpeggios and the chromatic scale. They are told by the
 * rules that the handbooks teach, not by rows of fingers, in keys as the right hand sees them. [lit: Hanon, "The
 * Virtuoso Pianist", nos. 39 to 41; the sources of the checks stand in tests/hands/handbooks.ts]
 */

import { isBlackKey, mod, mod12 } from "../pitch/index.ts";
import type { Finger } from "../take/index.ts";
import type { HandEvent } from "./hand-event.ts";

/** What a learnt fingering adds to each finger of an event, by finger; null where none is. */
export type Bias = readonly number[] | null;

/** Points for another finger than the learnt one: what is known by heart outweighs single rules. */
const LEARNT = 14;

/** Shortest runs that are played by heart: notes. A scale is known by the octave, and from its tonic or to it. */
const SHORTEST = { scale: 8, chromatic: 5 } as const;

/** No stretch that is known by heart has fewer notes: a broken triad, and two notes of the next octave. */
const LEAST = Math.min(SHORTEST.scale, SHORTEST.chromatic, 5);

/** Semitones above the tonic. */
const MAJOR = [0, 2, 4, 5, 7, 9, 11];
const HARMONIC_MINOR = [0, 2, 3, 5, 7, 8, 11];

/**
 * The fourth finger falls once an octave; with its key all others are given: 1 2 3 and 1 2 3 4 in turn. Pitch class of
 * that key by tonic from C up, hand by hand.
 */
const FOURTH: Readonly<Record<"right" | "left", Readonly<Record<"major" | "minor", readonly number[]>>>> = {
  right: {
    // The seventh degree; B flat wherever the key has one and begins on F or on a black key.
    major: [11, 10, 1, 10, 3, 10, 10, 6, 10, 8, 10, 10],
    // The seventh degree; B flat in F, B flat and E flat; the second degree of C sharp, F sharp and G sharp.
    minor: [11, 3, 1, 10, 3, 10, 8, 6, 10, 8, 10, 10],
  },
  left: {
    // The second degree; the fourth of B flat, E flat, A flat and D flat; the fifth of B, the tonic of G flat.
    major: [2, 6, 4, 8, 6, 7, 6, 9, 1, 11, 3, 6],
    // As in major but for E flat (the third degree) and B flat (the sixth).
    minor: [2, 6, 4, 6, 6, 7, 6, 9, 1, 11, 6, 6],
  },
};

/** For every event what learnt fingerings add to its fingers. */
export function biasesOf(events: readonly HandEvent[]): Bias[] {
  const biases: Bias[] = events.map(() => null);
  for (const [start, end] of runsOf(events)) {
    if (end - start < LEAST) continue;
    const run = events.slice(start, end);
    const keys = run.map((event) => event.keys[0]!);
    for (const { first, fingers } of learntIn(keys, run[0]!.hand)) {
      // Who is known to have played one key of it with another finger did not play it by heart.
      if (fingers.some((finger, k) => run[first + k]!.printed[0]?.includes(finger) === false)) continue;
      fingers.forEach((finger, k) => {
        biases[start + first + k] ??= BIASES[finger]!;
      });
    }
  }
  return biases;
}

const BIASES: readonly Bias[] = [0, 1, 2, 3, 4, 5].map((learnt) =>
  [0, 1, 2, 3, 4, 5].map((finger) => (finger === learnt ? 0 : LEARNT)),
);

/** Freedom of the hand at which a run ends. */
const BROKEN = 0.5;

/** Runs of single keys in one direction without a rest: first event, and after the last. A turn belongs to both sides. */
function runsOf(events: readonly HandEvent[]): [number, number][] {
  const runs: [number, number][] = [];
  let start = 0;
  let direction = 0;
  for (let i = 1; i <= events.length; i++) {
    const [event, before] = [events[i], events[i - 1]!];
    const joined =
      event !== undefined && event.keys.length === 1 && before.keys.length === 1 && event.ease < BROKEN;
    const now = joined ? Math.sign(event.keys[0]! - before.keys[0]!) : 0;
    if (now !== 0 && now === direction) continue;
    if (direction !== 0) runs.push([start, i]);
    start = now === 0 ? i : i - 1;
    direction = now;
  }
  return runs;
}

interface Learnt {
  readonly first: number;
  readonly fingers: readonly Finger[];
}

/** The stretches of a run that are known by heart. Keys in playing order. */
function learntIn(keys: readonly number[], hand: "right" | "left"): Learnt[] {
  const rising = keys[0]! < keys[keys.length - 1]!;
  const seen = rising ? keys : [...keys].reverse();
  const found: Learnt[] = [];
  for (let at = 0; at < seen.length - 1; ) {
    const stretch = chromaticAt(seen, at) ?? scaleAt(seen, at, hand) ?? arpeggioAt(seen, at);
    if (stretch === null) at++;
    else {
      found.push({ first: at, fingers: stretch });
      at += stretch.length - 1;
    }
  }
  if (rising) return found;
  return found.map(({ first, fingers }) => ({
    first: seen.length - first - fingers.length,
    fingers: [...fingers].reverse(),
  }));
}

/** The third finger on black keys, the thumb on white ones, the second where two white keys meet. */
function chromaticAt(keys: readonly number[], at: number): Finger[] | null {
  let end = at + 1;
  while (end < keys.length && keys[end]! - keys[end - 1]! === 1) end++;
  if (end - at < SHORTEST.chromatic) return null;
  return keys.slice(at, end).map((key, k): Finger => {
    if (isBlackKey(key)) return 3;
    return k > 0 && !isBlackKey(key - 1) ? 2 : 1;
  });
}

function scaleAt(keys: readonly number[], at: number, hand: "right" | "left"): Finger[] | null {
  let end = at + 1;
  while (end < keys.length && keys[end]! - keys[end - 1]! <= 3 && isOctaveOn(keys, at, end, 7)) end++;
  if (end - at < SHORTEST.scale) return null;
  const scale = scaleOf(keys.slice(at, at + 7), hand);
  if (scale === null || ![keys[at]!, keys[end - 1]!].some((key) => mod12(key) === scale.tonic)) return null;
  const anchor = keys.slice(at, at + 7).findIndex((key) => mod12(key) === scale.fourth);
  const fingers = keys.slice(at, end).map((_, k) => AFTER_FOURTH[mod(k - anchor, 7)]!);
  return withOuterEnd(fingers, 0);
}

const AFTER_FOURTH: readonly Finger[] = [4, 1, 2, 3, 1, 2, 3];

/** True where the key repeats what was played so many notes before an octave higher, or is within the first octave. */
function isOctaveOn(keys: readonly number[], at: number, k: number, period: number): boolean {
  if (k - at >= period) return keys[k]! - keys[k - period]! === 12;
  return keys[k]! - keys[at]! < 12;
}

interface Scale {
  /** Pitch classes, as the right hand sees them: of the tonic, and of the key under the fourth finger. */
  readonly tonic: number;
  readonly fourth: number;
}

/** Null where the keys are no scale. */
function scaleOf(keys: readonly number[], hand: "right" | "left"): Scale | null {
  // Middle D is the mirror's axis: pitch class p is seen as 4 - p.
  const real = new Set(keys.map((key) => (hand === "right" ? mod12(key) : mod12(4 - key))));
  for (const [kind, steps] of [
    ["major", MAJOR],
    ["minor", HARMONIC_MINOR],
  ] as const) {
    for (let tonic = 0; tonic < 12; tonic++) {
      if (!steps.every((step) => real.has((tonic + step) % 12))) continue;
      const fourth = FOURTH[hand][kind][tonic]!;
      return hand === "right" ? { tonic, fourth } : { tonic: mod12(4 - tonic), fourth: mod12(4 - fourth) };
    }
  }
  return null;
}

/**
 * Broken triads and seventh chords: the thumb on the lowest key where that is white or where all are black, else on
 * the first white key above it; then 2, and 3 or, where the hand opens further, 4.
 */
function arpeggioAt(keys: readonly number[], at: number): Finger[] | null {
  for (const size of [3, 4]) {
    let end = at + 1;
    while (end < keys.length && isBroken(keys, end, size) && isOctaveOn(keys, at, end, size)) end++;
    if (end - at < size + 2) continue;
    const octave = keys.slice(at, at + size);
    const white = octave.findIndex((key) => !isBlackKey(key));
    const thumb = Math.max(0, white);
    const upward = octave.map((_, k) => {
      const i = (thumb + k) % size;
      return octave[i]! + (thumb + k >= size ? 12 : 0);
    });
    const third = upward[2]! - upward[0]! <= 7 || upward[2]! - upward[1]! <= 3 ? 3 : 4;
    const order: Finger[] = size === 3 ? [1, 2, third] : [1, 2, 3, 4];
    const fingers = keys.slice(at, end).map((_, k) => order[mod(k - thumb, size)]!);
    return withOuterEnd(fingers, size === 3 ? 5 : 0);
  }
  return null;
}

function isBroken(keys: readonly number[], k: number, size: number): boolean {
  const step = keys[k]! - keys[k - 1]!;
  return size === 3 ? step >= 3 && step <= 5 : step >= 1 && step <= 4;
}

/** At the outer end no thumb is passed: the next finger ends the run, or the little one. */
function withOuterEnd(fingers: Finger[], end: 0 | 5): Finger[] {
  const last = fingers.length - 1;
  if (fingers[last] === 1) fingers[last] = end === 5 ? 5 : ((fingers[last - 1]! + 1) as Finger);
  return fingers;
}
