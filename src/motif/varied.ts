import { binomialTail } from "./chance.ts";
import { type Candidate, isRocking } from "./discovery.ts";
import { chanceOfStep, chanceOfSymbol } from "./markov.ts";
import { apartMatches, NO_STEP, nearChance, nearMatches, type StepChances } from "./near.ts";

/** Lengths of ideas in notes that are tried; shorter ones are near to too much by chance. */
export const VARIED_LENGTHS = [7, 8, 9, 10, 12];
/** Places whose idea is followed up, for each length: those with most neighbours beyond what chance would give. */
const FOLLOWED = 48;
/** Lines longer than this are not searched for ideas without any exact return: that is for one take at a time. */
const LONGEST_LINE = 50_000;
/** Fewest occurrences, the idea itself with them. */
const FEWEST = 3;

/**
 * Ideas whose returns are varied: places whose notes come back, with one note changed, added or dropped, more often
 * than chance would have it. Neighbours are counted through the forms that a stretch takes when one note is left out:
 * two stretches one note apart have such a form in common. Linear in the line for each length.
 *
 * @param steps semitones between places, `NO_STEP` across a breath
 */
export function discoverVaried(steps: Int32Array, chances: StepChances): Candidate[] {
  if (steps.length > LONGEST_LINE) return [];
  const chanceAt = quickChances(steps, chances);
  return VARIED_LENGTHS.flatMap((notes) => {
    const neighbours = countNeighbours(steps, notes);
    return mostSurprising(neighbours, notes, chanceAt).flatMap((start) => {
      if (isRocking(steps, start, notes - 1)) return [];
      const pattern = Array.from(steps.subarray(start, start + notes - 1));
      const matches = apartMatches(nearMatches(steps, pattern), steps.length + 1);
      if (matches.length < FEWEST) return [];
      const unheard = matches.length - 1;
      const { exact, near } = nearChance(chances, pattern, unheard);
      const trials = Math.max(1, chances.model.total - 1);
      const candidate: Candidate = {
        viewpoint: "chromatic interval",
        starts: matches.map((match) => match.start),
        notes,
        pattern: pattern.map((interval) => interval + 128),
        expected: trials * (exact + near),
        p: binomialTail(unheard, trials, Math.min(1, exact + near)),
        varied: { returns: matches.filter((match) => match.change !== "none").length, exact },
      };
      return [candidate];
    });
  });
}

/** For each place, how many other stretches share a form with the one that starts there; -1 where none can start. */
function countNeighbours(steps: Int32Array, notes: number): Int32Array {
  const last = steps.length - notes + 1;
  const neighbours = new Int32Array(Math.max(0, last + 1)).fill(-1);
  if (last < 0) return neighbours;
  const sharing = new Tally((last + 1) * (notes + 1));
  const forms = new Int32Array(notes);
  for (let start = 0; start <= last; start++) {
    const count = formsAt(steps, start, notes, forms);
    for (let f = 0; f < count; f++) sharing.add(forms[f]!);
  }
  for (let start = 0; start <= last; start++) {
    const count = formsAt(steps, start, notes, forms);
    if (count === 0) continue;
    neighbours[start] = 0;
    for (let f = 0; f < count; f++) neighbours[start]! += sharing.countOf(forms[f]!) - 1;
  }
  return neighbours;
}

/**
 * Writes hashes of a stretch with each of its notes left out in turn, no hash twice.
 *
 * @returns how many; 0 where a breath lies in it
 */
function formsAt(steps: Int32Array, start: number, notes: number, forms: Int32Array): number {
  const m = notes - 1;
  for (let k = 0; k < m; k++) if (steps[start + k] === NO_STEP) return 0;
  let count = 0;
  for (let left = 0; left <= m; left++) {
    let hash = 17;
    for (let k = left === 0 ? 1 : 0; k < (left === m ? m - 1 : m); k++) {
      let step = steps[start + k]!;
      if (left > 0 && left < m && k === left - 1) step += steps[start + ++k]!;
      hash = Math.imul(hash ^ (step + 256), 0x01000193);
      hash ^= hash >>> 15;
    }
    if (forms.subarray(0, count).indexOf(hash) < 0) forms[count++] = hash;
  }
  return count;
}

/** Counts of whole numbers, by open addressing: an object map of so many keys would not stay linear. */
class Tally {
  readonly #mask: number;
  readonly #keys: Int32Array;
  readonly #counts: Int32Array;

  constructor(most: number) {
    let size = 1024;
    while (size < 2 * most) size *= 2;
    this.#mask = size - 1;
    this.#keys = new Int32Array(size);
    this.#counts = new Int32Array(size);
  }

  add(key: number): void {
    const slot = this.#slotOf(key);
    this.#keys[slot] = key;
    this.#counts[slot]!++;
  }

  countOf(key: number): number {
    return this.#counts[this.#slotOf(key)]!;
  }

  #slotOf(key: number): number {
    let slot = Math.imul(key, 0x9e3779b1) & this.#mask;
    while (this.#counts[slot]! > 0 && this.#keys[slot] !== key) slot = (slot + 1) & this.#mask;
    return slot;
  }
}

/**
 * A quick estimate of how many near repeats chance gives the stretch of so many notes from a place on: the ways with
 * one inner note changed or added, which are most of them. Without it the commonest turns of the line would crowd out
 * the rare ones that return.
 */
function quickChances(steps: Int32Array, chances: StepChances): (start: number, notes: number) => number {
  const { model } = chances;
  const logs = new Float64Array(steps.length + 1);
  const links = new Float64Array(steps.length);
  const alone = new Map<number, number>();
  for (let i = 0; i < steps.length; i++) {
    const symbol = steps[i] === NO_STEP ? -1 : chances.symbolOf(steps[i]!);
    if (symbol >= 0) {
      const lone = alone.get(symbol) ?? chanceOfSymbol(model, symbol, 0, 0);
      alone.set(symbol, lone);
      const before = i === 0 || steps[i - 1] === NO_STEP ? -1 : chances.symbolOf(steps[i - 1]!);
      links[i] = Math.log(before < 0 ? lone : chanceOfStep(model, before, symbol, 0, 0, lone));
    }
    logs[i + 1] = logs[i]! + links[i]!;
  }
  const two = new Map<number, number>();
  const twoLog = (sum: number) => {
    const known = two.get(sum) ?? Math.log(chances.two(sum));
    two.set(sum, known);
    return known;
  };
  return (start, notes) => {
    const end = start + notes - 1;
    const whole = logs[end]! - logs[start]!;
    let chance = 0;
    for (let k = start; k + 1 < end; k++) {
      chance += Math.exp(whole - links[k]! - links[k + 1]! + twoLog(steps[k]! + steps[k + 1]!));
    }
    return 2 * model.total * chance;
  };
}

/** Places with the most neighbours for their chance, by Poisson deviance. */
function mostSurprising(
  neighbours: Int32Array,
  notes: number,
  chanceAt: (start: number, notes: number) => number,
): number[] {
  const surprise = new Float64Array(neighbours.length);
  const order = Array.from(neighbours.keys()).filter((i) => {
    const count = neighbours[i]!;
    if (count < FEWEST - 1) return false;
    const expected = chanceAt(i, notes);
    surprise[i] = count * Math.log(count / expected) - count + expected;
    return count > expected;
  });
  order.sort((a, b) => surprise[b]! - surprise[a]! || a - b);
  const chosen: number[] = [];
  for (const start of order) {
    if (chosen.length === FOLLOWED) break;
    // A stretch one note on tells the same story.
    if (!chosen.some((other) => Math.abs(other - start) < Math.min(2, notes))) chosen.push(start);
  }
  return chosen;
}
