import type { ChordSpan } from "../chart/index.ts";
import { mod12 } from "../pitch/index.ts";
import type { Finger, Hand } from "../take/index.ts";
import { fitsChord, type HeldShape, heldShape, mirrorPitch, type Placement } from "./placements.ts";
import type { HandShape } from "./shape.ts";

/** Lowest keys are stored from this MIDI number up, so that a shape may hang over the keyboard's end. */
const LOWEST = -32;
const ROOM = 192;

/** Shapes as the right hand sees them: the left hand's are turned over in the mirror, so that one search serves both. */
export interface ShapeStates {
  readonly hand: Hand;
  readonly held: readonly HeldShape[];
  /** Rising from 0, for each shape. */
  readonly semitones: readonly (readonly number[])[];
  readonly fingers: readonly (readonly Finger[])[];
  readonly anchors: readonly number[];
  /** For each shape the finger by semitones above its lowest key, 0 where it has none. */
  readonly fingerAt: readonly Uint8Array[];
  /** Shapes whose keys and fingers contain, or are contained in, this one's; and where they then stand. */
  readonly relatives: readonly (readonly { readonly shape: number; readonly offset: number }[])[];
  /** For each shape how far its relatives' states lie from its own. */
  readonly relativeSteps: readonly Int32Array[];
  /** Number of states: every shape at every pitch. */
  readonly states: number;
  /** For every state the key under the thumb, or where it would lie: the place of the hand. */
  readonly places: Int16Array;
  /** For every state its shape, and its lowest key. */
  readonly shapes: Uint16Array;
  readonly lows: Int16Array;
  /** For every state its shape times 12, and the pitch class under the anchor finger. */
  readonly anchorClasses: Uint16Array;
}

export function shapeStates(shapes: readonly HandShape[], hand: Hand): ShapeStates {
  const held = shapes.map((shape) => heldShape(shape, hand));
  const semitones = held.map((one) => (hand === "right" ? one.semitones : turnOver(one.semitones)));
  const fingers = held.map((one) => (hand === "right" ? one.fingers : [...one.fingers].reverse()));
  const anchors = held.map((one) => (hand === "right" ? one.anchor : one.fingers.length - 1 - one.anchor));
  const relatives = held.map((_, a) =>
    held.flatMap((_, b) => {
      if (a === b) return [];
      const offset = containment(semitones[a]!, fingers[a]!, semitones[b]!, fingers[b]!);
      if (offset !== null) return [{ shape: b, offset }];
      const reverse = containment(semitones[b]!, fingers[b]!, semitones[a]!, fingers[a]!);
      return reverse === null ? [] : [{ shape: b, offset: -reverse }];
    }),
  );
  const fingerAt = semitones.map((keys, shape) => {
    const row = new Uint8Array(keys[keys.length - 1]! + 1);
    keys.forEach((key, k) => {
      row[key] = fingers[shape]![k]!;
    });
    return row;
  });
  const thumbs = fingers.map((used) => -2 * (used[0]! - 1));
  const states = shapes.length * ROOM;
  const places = new Int16Array(states);
  const anchorClasses = new Uint16Array(states);
  const shapeAt = new Uint16Array(states);
  const lows = new Int16Array(states);
  for (let state = 0; state < states; state++) {
    const shape = shapeOf(state);
    const anchor = lowOf(state) + semitones[shape]![anchors[shape]!]!;
    shapeAt[state] = shape;
    lows[state] = lowOf(state);
    places[state] = lowOf(state) + thumbs[shape]!;
    anchorClasses[state] = shape * 12 + mod12(hand === "right" ? anchor : mirrorPitch(anchor));
  }
  const relativeSteps = relatives.map((row, shape) =>
    Int32Array.from(row, (one) => stateOf(one.shape, one.offset) - stateOf(shape, 0)),
  );
  const columns = { shapes: shapeAt, lows, places, anchorClasses };
  return { hand, held, semitones, fingers, anchors, fingerAt, relatives, relativeSteps, states, ...columns };
}

/** State of a shape whose lowest key, as the right hand sees it, is `low`. */
export function stateOf(shape: number, low: number): number {
  return shape * ROOM + (low - LOWEST);
}

export function shapeOf(state: number): number {
  return Math.floor(state / ROOM);
}

/** Lowest key as the right hand sees it. */
export function lowOf(state: number): number {
  return (state % ROOM) + LOWEST;
}

/** Index of the key in the shape, or -1. */
export function indexOn(view: ShapeStates, state: number, key: number): number {
  return view.semitones[shapeOf(state)]!.indexOf(key - lowOf(state));
}

/** MIDI number under the anchor finger, on the real keyboard. */
export function anchorOf(view: ShapeStates, state: number): number {
  const shape = shapeOf(state);
  const seen = lowOf(state) + view.semitones[shape]![view.anchors[shape]!]!;
  return view.hand === "right" ? seen : mirrorPitch(seen);
}

/** The placement on the real keyboard. */
export function placementOf(view: ShapeStates, state: number): Placement {
  const shape = shapeOf(state);
  const held = view.held[shape]!;
  const low = lowOf(state);
  return {
    held,
    low: view.hand === "right" ? low : mirrorPitch(low + held.semitones[held.semitones.length - 1]!),
  };
}

/** How well a placement suits a chord: a place of the shape's own, all its keys in the chord's scale, or neither. */
export const IDIOMATIC = 0;
export const IN_SCALE = 1;
export const FOREIGN = 2;
export type Idiom = typeof IDIOMATIC | typeof IN_SCALE | typeof FOREIGN;

/**
 * The idiom of every state on every chord span, looked up once for every shape, pitch class and span. Where no chord
 * sounds (N.C.) every place is as good as another.
 */
export class IdiomTable {
  readonly #table: Uint8Array;
  readonly #anchorClasses: Uint16Array;
  readonly #row: number;
  readonly #open: readonly boolean[];

  constructor(view: ShapeStates, spans: readonly ChordSpan[]) {
    const row = view.held.length * 12;
    const table = new Uint8Array(row * Math.max(1, spans.length));
    const known = spans.map(keysInScale);
    view.held.forEach(({ shape }, index) => {
      const anchor = shape.semitones[shape.fingers.indexOf(shape.anchorFinger)]!;
      for (let pitchClass = 0; pitchClass < 12; pitchClass++) {
        const keys = shape.semitones.map((semitones) => pitchClass + semitones - anchor);
        spans.forEach((span, k) => {
          table[k * row + index * 12 + pitchClass] = idiomOf(shape, pitchClass, keys, span, known[k]!);
        });
      }
    });
    this.#table = table;
    this.#anchorClasses = view.anchorClasses;
    this.#row = row;
    this.#open = spans.map(({ chord }) => chord === null);
  }

  /** True where no chord sounds. */
  isOpen(span: number): boolean {
    return this.#open[span] ?? true;
  }

  of(state: number, span: number): Idiom {
    return this.at(this.#anchorClasses[state]!, span);
  }

  /** Of a shape and the pitch class under its anchor finger, as the view counts them. */
  at(anchorClass: number, span: number): Idiom {
    return this.#table[span * this.#row + anchorClass] as Idiom;
  }
}

function idiomOf(
  shape: HandShape,
  anchor: number,
  keys: readonly number[],
  span: ChordSpan,
  known: number,
): Idiom {
  if (span.chord === null || fitsChord(shape, anchor, span.chord)) return IDIOMATIC;
  const { rootClass } = span.chord;
  return keys.every((key) => (known >> ((key - rootClass + 24) % 12)) & 1) ? IN_SCALE : FOREIGN;
}

/** The notes that the chord's scale, its tones and its blue notes have, as bits by semitones above the root. */
function keysInScale(span: ChordSpan): number {
  const tones = [...(span.chord?.tones ?? []), ...span.blue].map(({ semitones }) => semitones);
  return [...span.scaleTones, ...tones].reduce((bits, semitones) => bits | (1 << semitones), 0);
}

function turnOver(semitones: readonly number[]): number[] {
  const top = semitones[semitones.length - 1]!;
  return semitones.map((semitone) => top - semitone).reverse();
}

/** Where the second shape's lowest key lies above the first's when it holds all of the first's keys with the same fingers. */
function containment(
  keysA: readonly number[],
  fingersA: readonly Finger[],
  keysB: readonly number[],
  fingersB: readonly Finger[],
): number | null {
  const at = fingersB.indexOf(fingersA[0]!);
  if (at < 0 || fingersA.length >= fingersB.length) return null;
  const offset = keysA[0]! - keysB[at]!;
  const holds = fingersA.every((finger, i) => {
    const j = fingersB.indexOf(finger);
    return j >= 0 && keysB[j]! + offset === keysA[i]!;
  });
  return holds ? offset : null;
}
