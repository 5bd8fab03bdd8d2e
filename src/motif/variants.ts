import type { Candidate } from "./discovery.ts";
import { apartMatches, type NearMatch, NO_STEP, nearChance, nearMatches, type StepChances } from "./near.ts";

/** How a stretch of the line is akin to an idea, beside plain and transposed returns. */
export type VariantKind = "same" | "near" | "inverted" | "backwards" | "along the scale";

export interface Variant extends NearMatch {
  readonly kind: VariantKind;
}

/** A kind of variant is heard only where chance would give at most so many of its finds. */
const BY_CHANCE = 0.2;
/** Variants of one kind are at most so many times as many as the returns that the idea was found by. [practice] */
const MOST_VARIANTS = 5;
/** Fewest steps of an idea whose mirror images are looked for; short ones are in every line. [practice] */
const SHORTEST_IMAGE = 4;

/**
 * All that is akin to an idea of intervals, without overlaps: its plain returns first, then what has one note
 * changed, added or dropped, then its inversion, its reversal, and the idea moved along the scale (each step in the
 * same direction and at most a semitone off).
 */
export function variantsOf(idea: Candidate, steps: Int32Array, chances: StepChances): Variant[] {
  const pattern = idea.pattern.map((code) => intervalOf(idea, code));
  const trials = Math.max(1, chances.model.total - 1);
  const taken = new Uint8Array(steps.length + 1);
  const variants: Variant[] = [];
  const admit = (kind: VariantKind, chance: number, find: () => readonly NearMatch[]) => {
    const expected = trials * chance;
    if (expected > BY_CHANCE * MOST_VARIANTS * idea.starts.length) return;
    const free = find().filter((match) => isFree(taken, match));
    if (expected > BY_CHANCE * free.length) return;
    for (const match of free) {
      if (!isFree(taken, match)) continue;
      taken.fill(1, match.start, match.start + match.notes - 1);
      variants.push({ ...match, kind });
    }
  };
  admit("same", 0, () => exactMatches(steps, pattern));
  const odds = nearChance(chances, pattern, Math.max(0, variants.length - 1));
  admit("near", odds.near, () =>
    apartMatches(nearMatches(steps, pattern), steps.length + 1).filter((match) => match.change !== "none"),
  );
  if (pattern.length >= SHORTEST_IMAGE) {
    const inverted = pattern.map((interval) => -interval);
    const backwards = [...inverted].reverse();
    admit("inverted", nearChance(chances, inverted, 0).exact, () => exactMatches(steps, inverted));
    admit("backwards", nearChance(chances, backwards, 0).exact, () => exactMatches(steps, backwards));
    admit("along the scale", scaleChance(chances, pattern), () => scaleMatches(steps, pattern));
  }
  return variants.sort((a, b) => a.start - b.start);
}

/** Interval that a code of the two interval viewpoints stands for. */
export function intervalOf(idea: { readonly viewpoint: string }, code: number): number {
  return (idea.viewpoint === "interval and rhythm" ? Math.floor(code / 128) : code) - 128;
}

function isFree(taken: Uint8Array, match: NearMatch): boolean {
  for (let i = match.start; i < match.start + match.notes - 1; i++) if (taken[i] === 1) return false;
  return true;
}

function exactMatches(steps: Int32Array, pattern: readonly number[]): NearMatch[] {
  return matchesWhere(steps, pattern, (step, wanted) => step === wanted);
}

function scaleMatches(steps: Int32Array, pattern: readonly number[]): NearMatch[] {
  return matchesWhere(steps, pattern, bends);
}

function bends(step: number, wanted: number): boolean {
  return Math.abs(step - wanted) <= 1 && Math.sign(step) === Math.sign(wanted);
}

function matchesWhere(
  steps: Int32Array,
  pattern: readonly number[],
  fits: (step: number, wanted: number) => boolean,
): NearMatch[] {
  const found: NearMatch[] = [];
  for (let start = 0; start + pattern.length <= steps.length; start++) {
    let k = 0;
    while (k < pattern.length && steps[start + k] !== NO_STEP && fits(steps[start + k]!, pattern[k]!)) k++;
    if (k === pattern.length) found.push({ start, notes: k + 1, change: "none", at: 0 });
  }
  return found;
}

/** Chance of a line whose every step is the pattern's or a semitone off, from the lone steps. */
function scaleChance(chances: StepChances, pattern: readonly number[]): number {
  const { model } = chances;
  return pattern.reduce((chance, wanted) => {
    let sum = 0;
    for (let step = wanted - 1; step <= wanted + 1; step++) {
      const symbol = chances.symbolOf(step);
      if (symbol >= 0 && bends(step, wanted)) sum += model.single[symbol]!;
    }
    return (chance * sum) / Math.max(1, model.total);
  }, 1);
}
