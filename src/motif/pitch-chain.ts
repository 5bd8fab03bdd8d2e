import { DEGREES, type Degree, degreeSemitones } from "../chart/index.ts";
import { NO_STEP } from "./near.ts";

/**
 * The second null model of a melody: a first-order Markov chain of pitches. A line that rocks between two keys, or
 * falls the same way from the same note, repeats its intervals, its degrees and its contour without having an idea;
 * only a chain of pitches knows that. Each question sums over all ways in which the chain answers to the pattern; the
 * stretches that are `unheard` (first place and number of notes) are taken out of the chain first, since a take that
 * lives on one idea would teach the chain that idea.
 */
export interface PitchChain {
  /** Chance that the line, from a random note on, plays these intervals at any pitch. */
  intervals(pattern: readonly number[], unheard: readonly Stretch[]): number;
  /** The same with exactly one note changed, added or left out. */
  nearIntervals(pattern: readonly number[], unheard: readonly Stretch[]): number;
  /** Chance of a contour, step by step; codes of the viewpoint (1 leap down to 5 leap up). */
  contours(pattern: readonly number[], unheard: readonly Stretch[]): number;
  /** Chance of these degrees over one chord; codes of the viewpoint. */
  degrees(pattern: readonly number[], unheard: readonly Stretch[]): number;
}

export interface Stretch {
  readonly start: number;
  readonly notes: number;
}

export interface PitchedNote {
  /** MIDI number. */
  readonly pitch: number;
  readonly degree: Degree | null;
}

/** Weight, in notes, of the chain-free pitches behind the chain. */
const PRIOR = 2;
const PITCHES = 128;

/** @param steps semitones from each place to the next, `NO_STEP` across a breath */
export function pitchChain(notes: readonly PitchedNote[], steps: Int32Array): PitchChain {
  const chain = new Chain(
    Uint8Array.from(notes, (note) => note.pitch),
    steps,
  );
  const roots = rootShares(notes);
  return {
    intervals: (pattern, unheard) => chain.without(unheard, () => chain.sumOfPaths(pattern)),
    nearIntervals: (pattern, unheard) => {
      const two = chain.twoSteps();
      return chain.without(unheard, () => chain.sumOfNearPaths(pattern, two));
    },
    contours: (pattern, unheard) =>
      chain.without(unheard, () =>
        chain.sumWhere(pattern.length, (k, a, b) => contourOf(b - a) === pattern[k]),
      ),
    degrees: (pattern, unheard) => {
      const semitones = pattern.map((code) => degreeSemitones(DEGREES[code - 1]!));
      return chain.without(unheard, () =>
        roots.reduce((sum, { root, share }) => {
          const classes = semitones.map((above) => (root + above) % 12);
          return sum + share * chain.sumInClasses(classes);
        }, 0),
      );
    },
  };
}

function contourOf(interval: number): number {
  if (Math.abs(interval) <= 2) return Math.sign(interval) + 3;
  return interval > 0 ? 5 : 1;
}

/** Roots of the chords that the line is played over, by share of its notes. */
function rootShares(notes: readonly PitchedNote[]): { readonly root: number; readonly share: number }[] {
  const counts = new Array<number>(12).fill(0);
  let all = 0;
  for (const { pitch, degree } of notes) {
    if (degree === null) continue;
    counts[(pitch - degreeSemitones(degree) + 120) % 12]!++;
    all++;
  }
  return counts.flatMap((count, root) => (count === 0 ? [] : [{ root, share: count / all }]));
}

class Chain {
  readonly #line: Uint8Array;
  readonly #steps: Int32Array;
  readonly #pairs = new Float64Array(PITCHES * PITCHES);
  readonly #followed = new Float64Array(PITCHES);
  readonly #single = new Float64Array(PITCHES);
  /** Pitches that the line plays, rising. */
  readonly #states: readonly number[];
  readonly #total: number;
  /** Chance of each pitch without the chain, times its weight. */
  readonly #prior: Float64Array;
  #twoSteps: Float64Array | null = null;

  constructor(line: Uint8Array, steps: Int32Array) {
    this.#line = line;
    this.#steps = steps;
    for (let i = 0; i < line.length; i++) {
      const a = line[i]!;
      this.#single[a]!++;
      if (i >= steps.length || steps[i] === NO_STEP) continue;
      this.#followed[a]!++;
      this.#pairs[a * PITCHES + line[i + 1]!]!++;
    }
    this.#states = [...this.#single.keys()].filter((pitch) => this.#single[pitch]! > 0);
    this.#total = Math.max(1, line.length);
    this.#prior = this.#single.map((count) => (PRIOR * (count + 0.5)) / (this.#total + 64));
  }

  without(unheard: readonly Stretch[], ask: () => number): number {
    this.#count(unheard, -1);
    const chance = ask();
    this.#count(unheard, 1);
    return Math.min(1, chance);
  }

  #count(stretches: readonly Stretch[], by: number): void {
    for (const { start, notes } of stretches) {
      for (let i = start; i < start + notes - 1 && i + 1 < this.#line.length; i++) {
        if (this.#steps[i] === NO_STEP) continue;
        this.#followed[this.#line[i]!]! += by;
        this.#pairs[this.#line[i]! * PITCHES + this.#line[i + 1]!]! += by;
      }
    }
  }

  #begin(pitch: number): number {
    return this.#single[pitch]! / this.#total;
  }

  #step(a: number, b: number): number {
    if (b < 0 || b >= PITCHES) return 0;
    // Overlapping stretches are counted out twice.
    const pair = Math.max(0, this.#pairs[a * PITCHES + b]!);
    return (pair + this.#prior[b]!) / (Math.max(pair, this.#followed[a]!) + PRIOR);
  }

  sumOfPaths(intervals: readonly number[]): number {
    let sum = 0;
    for (const first of this.#states) {
      let path = this.#begin(first);
      let a = first;
      for (let k = 0; k < intervals.length && path > 0; k++) {
        path *= this.#step(a, a + intervals[k]!);
        a += intervals[k]!;
      }
      sum += path;
    }
    return sum;
  }

  /** Sums, over all first notes, the ways with one inner or outer note changed, added or left out. */
  sumOfNearPaths(intervals: readonly number[], two: Float64Array): number {
    const n = intervals.length + 1;
    const leap = (a: number, b: number) => (b < 0 || b >= PITCHES ? 0 : two[a * PITCHES + b]!);
    let sum = 0;
    for (let first = 0; first < PITCHES; first++) {
      const path = [first];
      for (const interval of intervals) path.push(path[path.length - 1]! + interval);
      if (path.some((pitch) => pitch < 0 || pitch >= PITCHES)) continue;
      const link = path.map((pitch, k) => (k === 0 ? this.#begin(pitch) : this.#step(path[k - 1]!, pitch)));
      const before = [1];
      for (let k = 0; k < n; k++) before.push(before[k]! * link[k]!);
      const after = new Array<number>(n + 1).fill(1);
      for (let k = n - 1; k >= 1; k--) after[k] = after[k + 1]! * link[k]!;
      // The last note changed, and the first.
      sum += before[n - 1]! + this.#begin(path[1]!) * after[2]!;
      for (let k = 1; k < n; k++) {
        // One added before note k.
        sum += before[k]! * leap(path[k - 1]!, path[k]!) * after[k + 1]!;
        if (k + 1 >= n) continue;
        // Note k changed, or left out.
        const over = leap(path[k - 1]!, path[k + 1]!) + this.#step(path[k - 1]!, path[k + 1]!);
        sum += before[k]! * over * after[k + 2]!;
      }
    }
    return sum;
  }

  /** Chances to come from one pitch to another in two steps, with nothing taken out. */
  twoSteps(): Float64Array {
    if (this.#twoSteps !== null) return this.#twoSteps;
    const two = new Float64Array(PITCHES * PITCHES);
    for (const a of this.#states) {
      for (const via of this.#states) {
        const first = this.#step(a, via);
        for (const b of this.#states) two[a * PITCHES + b]! += first * this.#step(via, b);
      }
    }
    this.#twoSteps = two;
    return two;
  }

  /** Sums over all paths of so many steps of which each is admitted: forwards, step by step. */
  sumWhere(steps: number, admits: (k: number, a: number, b: number) => boolean): number {
    let reached = Float64Array.from(this.#states, (pitch) => this.#begin(pitch));
    for (let k = 0; k < steps; k++) {
      const next = new Float64Array(this.#states.length);
      for (let i = 0; i < reached.length; i++) {
        if (reached[i] === 0) continue;
        for (let j = 0; j < next.length; j++) {
          const [a, b] = [this.#states[i]!, this.#states[j]!];
          if (admits(k, a, b)) next[j]! += reached[i]! * this.#step(a, b);
        }
      }
      reached = next;
    }
    return reached.reduce((sum, chance) => sum + chance, 0);
  }

  sumInClasses(classes: readonly number[]): number {
    const inClass = (of: number) => this.#states.filter((pitch) => pitch % 12 === of);
    let before = inClass(classes[0]!);
    let reached = before.map((pitch) => this.#begin(pitch));
    for (const wanted of classes.slice(1)) {
      const states = inClass(wanted);
      reached = states.map((b) => before.reduce((sum, a, i) => sum + reached[i]! * this.#step(a, b), 0));
      before = states;
    }
    return reached.reduce((sum, chance) => sum + chance, 0);
  }
}
