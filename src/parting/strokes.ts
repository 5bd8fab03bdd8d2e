/** Notes struck together, and the ways in which two hands can share them. */
import { PARTING_COSTS, type PartedInput } from "./costs.ts";
import type { HandRoles } from "./roles.ts";

/** One hand's share of a group of notes struck together. */
export interface Share {
  readonly low: number;
  readonly high: number;
  readonly centre: number;
  readonly onset: number;
  readonly pitches: readonly number[];
  /** When each key is let go, in seconds. */
  readonly ends: readonly number[];
}

/** One way to share a group. */
export interface Sharing {
  /** Bit for each note of the group, lowest first, set when the right hand plays it. */
  readonly mask: number;
  readonly left: Share | null;
  readonly right: Share | null;
  /** What it costs whatever the hands did before. */
  readonly cost: number;
}

/** Groups larger than this are parted at one place only; no hand pair plays more. */
export const MOST_NOTES = 24;

/** Indices of notes struck together, each group sorted by pitch. Notes must be sorted by onset. */
export function groupNotes(notes: readonly PartedInput[]): number[][] {
  const groups: number[][] = [];
  let start = Number.NEGATIVE_INFINITY;
  notes.forEach((note, i) => {
    if (note.onset - start > PARTING_COSTS.group) {
      groups.push([]);
      start = note.onset;
    }
    groups.at(-1)!.push(i);
  });
  for (const group of groups) group.sort((a, b) => notes[a]!.pitch - notes[b]!.pitch);
  return groups;
}

/**
 * Ways to share a group: the lowest k to the left, for every k; the same with the hands crossed; and one hand's
 * single note among the other's.
 */
export function maskChoices(notes: readonly PartedInput[], group: readonly number[]): number[] {
  const n = Math.min(group.length, MOST_NOTES);
  const all = 2 ** n - 1;
  const masks = new Set<number>();
  for (let k = 0; k <= n; k++) {
    // A unison stays in one hand: two hands do not strike one key.
    if (k > 0 && k < n && notes[group[k - 1]!]!.pitch === notes[group[k]!]!.pitch) continue;
    const upper = all - (2 ** k - 1);
    masks.add(upper);
    if (k > 0 && k < n) masks.add(all - upper);
  }
  if (n <= 8) {
    for (let k = 1; k + 1 < n; k++) {
      masks.add(1 << k);
      masks.add(all - (1 << k));
    }
  }
  return withKnown(notes, group, [...masks]);
}

/** The same ways with every note whose hand is known in that hand, each way once. */
function withKnown(notes: readonly PartedInput[], group: readonly number[], masks: number[]): number[] {
  let [known, right] = [0, 0];
  group.slice(0, MOST_NOTES).forEach((index, bit) => {
    const hand = notes[index]!.corrected?.hand;
    if (hand !== undefined) known |= 1 << bit;
    if (hand === "right") right |= 1 << bit;
  });
  return known === 0 ? masks : [...new Set(masks.map((mask) => (mask & ~known) | right))];
}

export function isRight(mask: number, bit: number): boolean {
  return ((mask >> Math.min(bit, MOST_NOTES - 1)) & 1) === 1;
}

/** Works out one way to share a group. */
export function sharing(
  notes: readonly PartedInput[],
  group: readonly number[],
  mask: number,
  roles: HandRoles | null,
): Sharing {
  const costs = PARTING_COSTS;
  const left = shareOf(notes, group, mask, false);
  const right = shareOf(notes, group, mask, true);
  let cost = handCost(left) + handCost(right);
  if (roles !== null) {
    group.forEach((index, bit) => {
      cost += isRight(mask, bit) ? roles.right[index]! : roles.left[index]!;
    });
    cost += roles.sizes(left?.pitches.length ?? 0, right?.pitches.length ?? 0);
  }
  if (left !== null && right !== null)
    cost += costs.entangled * (between(left, right) + between(right, left));
  return { mask, left, right, cost };
}

/** Keys of one hand that lie inside the span of the other. */
function between(hand: Share, other: Share): number {
  let inside = 0;
  for (const pitch of hand.pitches) if (pitch > other.low && pitch < other.high) inside++;
  return inside;
}

function shareOf(
  notes: readonly PartedInput[],
  group: readonly number[],
  mask: number,
  right: boolean,
): Share | null {
  const pitches: number[] = [];
  const ends: number[] = [];
  let sum = 0;
  let onset = 0;
  group.forEach((index, bit) => {
    if (isRight(mask, bit) !== right) return;
    const note = notes[index]!;
    pitches.push(note.pitch);
    ends.push(note.onset + note.duration);
    sum += note.pitch;
    onset = Math.max(onset, note.onset);
  });
  if (pitches.length === 0) return null;
  return { low: pitches[0]!, high: pitches.at(-1)!, centre: sum / pitches.length, onset, pitches, ends };
}

function handCost(share: Share | null): number {
  if (share === null) return 0;
  let [shortest, longest] = [Number.POSITIVE_INFINITY, 0];
  for (const end of share.ends) {
    shortest = Math.min(shortest, end - share.onset);
    longest = Math.max(longest, end - share.onset);
  }
  return PARTING_COSTS.ragged * Math.min(2, Math.log2(longest / Math.max(0.03, shortest)));
}
