import { binomialTail } from "./chance.ts";
import { type Candidate, isRocking } from "./discovery.ts";
import { apartMatches, NO_STEP, nearChance, nearMatches, type StepChances } from "./near.ts";

/** Lengths of ideas in notes that are tried; shorter ones are near to too much by chance. */
export const VARIED_LENGTHS = [7, 8, 9, 10, 12];
/** Places whose idea is followed up, for each length: those with most neighbours. */
const FOLLOWED = 48;
/** Lines longer than this are not searched for ideas without any exact return: that is for one take at a time. */
export const LONGEST_LINE = 50_000;
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
  return VARIED_LENGTHS.flatMap((notes) => {
    const neighbours = countNeighbours(steps, notes);
    return mostNeighbours(neighbours, notes).flatMap((start) => {
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
  const sharing = new Map<number, number>();
  const forms = formsAt(steps, notes);
  const last = steps.length - notes + 1;
  for (let start = 0; start <= last; start++) {
    for (const form of forms(start)) sharing.set(form, (sharing.get(form) ?? 0) + 1);
  }
  const neighbours = new Int32Array(Math.max(0, last + 1)).fill(-1);
  for (let start = 0; start <= last; start++) {
    let sum = -1;
    for (const form of forms(start)) sum = Math.max(0, sum) + sharing.get(form)! - 1;
    neighbours[start] = sum;
  }
  return neighbours;
}

/** Hashes of a stretch with each of its notes left out in turn, and of the whole; none where a breath lies in it. */
function formsAt(steps: Int32Array, notes: number): (start: number) => readonly number[] {
  const m = notes - 1;
  return (start) => {
    for (let k = 0; k < m; k++) if (steps[start + k] === NO_STEP) return [];
    const forms: number[] = [];
    for (let left = 0; left <= m; left++) {
      let hash = 17;
      for (let k = left === 0 ? 1 : 0; k < (left === m ? m - 1 : m); k++) {
        let step = steps[start + k]!;
        if (left > 0 && left < m && k === left - 1) step += steps[start + ++k]!;
        hash = (Math.imul(hash, 0x01000193) ^ (step + 256)) | 0;
      }
      if (!forms.includes(hash)) forms.push(hash);
    }
    return forms;
  };
}

function mostNeighbours(neighbours: Int32Array, notes: number): number[] {
  const order = Array.from(neighbours.keys()).filter((i) => neighbours[i]! >= FEWEST - 1);
  order.sort((a, b) => neighbours[b]! - neighbours[a]! || a - b);
  const chosen: number[] = [];
  for (const start of order) {
    if (chosen.length === FOLLOWED) break;
    // A stretch one note on tells the same story.
    if (!chosen.some((other) => Math.abs(other - start) < Math.min(2, notes))) chosen.push(start);
  }
  return chosen;
}
