/**
 * Which hand plays which note, when one track carries both: the cheapest path through the take, note group by note
 * group, where each hand pays for its reach, its travel and for crossing the other (costs in parting-costs.ts). The
 * take is gone through more than once: what each hand does, learnt from one pass, helps the next one to decide where
 * the hands meet.
 */
import { PARTING_COSTS, type PartedInput } from "./costs.ts";
import { type HandRoles, handRoles } from "./roles.ts";
import {
  groupNotes,
  isRight,
  MOST_NOTES,
  maskChoices,
  type Share,
  type Sharing,
  sharing,
} from "./strokes.ts";

export interface HandPath {
  /** One for each note: 1 the right hand, 0 the left. */
  readonly right: Uint8Array;
  /** One for each note, 0 to 1: how much dearer the path would be with this one note in the other hand. */
  readonly margin: Float64Array;
}

interface HandState {
  readonly centre: number;
  readonly time: number;
  readonly low: number;
  readonly high: number;
  /** Keys still held, and when they are let go. */
  readonly pitches: readonly number[];
  readonly ends: readonly number[];
}

interface Hypothesis {
  readonly cost: number;
  readonly left: HandState;
  readonly right: HandState;
  readonly from: Hypothesis | null;
  readonly mask: number;
}

const BEAM = 32;
/** Times that the take is gone through; more change hardly a note. */
const PASSES = 3;

/**
 * Parts notes, sorted by onset, between two hands.
 *
 * @param middle MIDI number on whose sides the hands are at home; the take's own middle when left out
 * @example partByPath(notes).right[0] // 1 when the first note lies in the right hand
 */
export function partByPath(notes: readonly PartedInput[], middle: number = middleOf(notes)): HandPath {
  const groups = groupNotes(notes);
  let path = cheapest(notes, groups, middle, null);
  for (let pass = 1; pass < PASSES; pass++) {
    path = cheapest(notes, groups, middle, handRoles(notes, groups, path));
  }
  return path;
}

const MIDDLE_C = 60;

/** The pitch that best parts the take's notes into a low and a high half (two means), in MIDI numbers. */
export function middleOf(notes: readonly { readonly pitch: number }[]): number {
  if (notes.length === 0) return MIDDLE_C;
  let middle = notes.reduce((sum, note) => sum + note.pitch, 0) / notes.length;
  for (let round = 0; round < 20; round++) {
    let [low, lows, high, highs] = [0, 0, 0, 0];
    for (const { pitch } of notes) {
      if (pitch < middle) {
        low += pitch;
        lows++;
      } else {
        high += pitch;
        highs++;
      }
    }
    if (lows === 0 || highs === 0) break;
    middle = (low / lows + high / highs) / 2;
  }
  // To half a semitone, so that the same take in another key has the same middle, moved.
  return Math.round(2 * middle) / 2;
}

function cheapest(
  notes: readonly PartedInput[],
  groups: readonly (readonly number[])[],
  middle: number,
  roles: HandRoles | null,
): HandPath {
  const home = (pitch: number): HandState => ({
    centre: pitch,
    time: -10,
    low: pitch,
    high: pitch,
    pitches: [],
    ends: [],
  });
  const side = PARTING_COSTS.side * (roles === null ? 1 : PARTING_COSTS.sideKnown);
  let beam: Hypothesis[] = [
    { cost: 0, left: home(middle - 10), right: home(middle + 10), from: null, mask: 0 },
  ];
  for (const group of groups) {
    const best = new Map<number, Hypothesis>();
    const choices = maskChoices(notes, group).map((mask) => {
      const choice = sharing(notes, group, mask, roles);
      return { choice, left: placeOf(choice.left), right: placeOf(choice.right) };
    });
    for (const hypothesis of beam) {
      const [wasLeft, wasRight] = [placeOf(hypothesis.left), placeOf(hypothesis.right)];
      for (const { choice, left, right } of choices) {
        const key = (left ?? wasLeft)! * 256 + (right ?? wasRight)!;
        const rival = best.get(key);
        // Nothing that a hand does makes up for what the choice costs by itself.
        if (rival !== undefined && hypothesis.cost + choice.cost >= rival.cost) continue;
        const cost = costOf(hypothesis, choice, middle, side);
        if (rival === undefined || cost < rival.cost) best.set(key, played(hypothesis, choice, cost));
      }
    }
    beam = [...best.values()].sort((a, b) => a.cost - b.cost).slice(0, BEAM);
  }
  const path: Hypothesis[] = [];
  for (let at: Hypothesis | null = beam[0] ?? null; at !== null; at = at.from) path.push(at);
  return readPath(
    notes,
    path.reverse(),
    groups,
    (group, mask) => sharing(notes, group, mask, roles),
    (from, choice) => play(from, choice, middle, side),
  );
}

/** Middle of a hand, or of what it is to strike, to a semitone; null for nothing. */
function placeOf(hand: { readonly centre: number } | null): number | null {
  return hand === null ? null : Math.round(hand.centre);
}

function play(from: Hypothesis, choice: Sharing, middle: number, side: number): Hypothesis {
  return played(from, choice, costOf(from, choice, middle, side));
}

function costOf(from: Hypothesis, choice: Sharing, middle: number, side: number): number {
  const costs = PARTING_COSTS;
  let cost = from.cost + choice.cost;
  const { left, right } = from;
  if (choice.left !== null) {
    cost += moveCost(left, choice.left) + meetingCost(choice.left, right);
    cost += side * sideCost(choice.left, left.centre - middle, choice.left.centre - middle);
  }
  if (choice.right !== null) {
    cost += moveCost(right, choice.right) + meetingCost(choice.right, left);
    cost += side * sideCost(choice.right, middle - right.centre, middle - choice.right.centre);
  }
  const leftTime = choice.left?.onset ?? left.time;
  const rightTime = choice.right?.onset ?? right.time;
  const leftCentre = (choice.left ?? left).centre;
  const rightCentre = (choice.right ?? right).centre;
  if (leftCentre > rightCentre && Math.abs(leftTime - rightTime) < costs.atOnce) {
    cost += left.centre > right.centre ? costs.crossed : costs.crossing;
  }
  return cost;
}

function played(from: Hypothesis, choice: Sharing, cost: number): Hypothesis {
  return {
    cost,
    left: choice.left === null ? from.left : struck(from.left, choice.left),
    right: choice.right === null ? from.right : struck(from.right, choice.right),
    from,
    mask: choice.mask,
  };
}

/** Price of a share on the wrong side of the take's middle; `was` and `is`: semitones beyond it, before and now. */
function sideCost(share: Share, was: number, is: number): number {
  const costs = PARTING_COSTS;
  if (is <= 0) return 0;
  return share.pitches.length * Math.min(costs.sideMost, is) * (was > 0 ? costs.sideStays : 1);
}

/** What it costs a hand to get from where it is to its share of a group. */
function moveCost(hand: HandState, share: Share): number {
  const costs = PARTING_COSTS;
  const now = share.onset;
  let low = share.low;
  let high = share.high;
  let held = 0;
  // A key is let go early or late by some hundredths of a second; only what is held on counts for the reach.
  for (let k = 0; k < hand.pitches.length; k++) {
    if (hand.ends[k]! <= now + 0.05 || share.pitches.includes(hand.pitches[k]!)) continue;
    held++;
    low = Math.min(low, hand.pitches[k]!);
    high = Math.max(high, hand.pitches[k]!);
  }
  const reach = high - low;
  const apart = now - hand.time;
  const outside = Math.max(
    0,
    hand.low - share.low,
    share.high - hand.high,
    Math.abs(share.centre - hand.centre),
  );
  const rolls = apart < costs.roll && share.low > hand.low;
  const rate =
    (costs.travel + (apart < costs.quick ? costs.hurry : 0)) *
    (costs.remembered + (1 - costs.remembered) * Math.exp(-apart / costs.forget));
  return (
    costs.stretch * Math.max(0, Math.min(reach, costs.possible) - costs.comfortable) +
    costs.beyond * Math.max(0, reach - costs.possible) +
    costs.sixthFinger * Math.max(0, share.pitches.length + held - 5) +
    costs.holding * (rolls ? 0 : Math.max(0, held - 1)) +
    costs.tooFast * Math.min(costs.leap, Math.max(0, outside - costs.atHand - costs.speed * apart)) +
    (rolls ? costs.rolled : 1) * rate * Math.min(costs.leap, Math.max(0, outside - costs.underFingers))
  );
}

/** What it costs to strike among the keys that the other hand holds. */
function meetingCost(share: Share, other: HandState): number {
  const costs = PARTING_COSTS;
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  let cost = 0;
  for (let k = 0; k < other.pitches.length; k++) {
    if (other.ends[k]! <= share.onset + 0.05) continue;
    const pitch = other.pitches[k]!;
    low = Math.min(low, pitch);
    high = Math.max(high, pitch);
    if (share.pitches.includes(pitch)) cost += costs.sameKey;
  }
  for (const pitch of share.pitches) if (pitch > low && pitch < high) cost += costs.entangled;
  return cost;
}

function struck(hand: HandState, share: Share): HandState {
  let { pitches, ends } = share;
  for (let k = 0; k < hand.pitches.length; k++) {
    if (hand.ends[k]! <= share.onset + 0.05 || share.pitches.includes(hand.pitches[k]!)) continue;
    pitches = [...pitches, hand.pitches[k]!];
    ends = [...ends, hand.ends[k]!];
  }
  return { centre: share.centre, time: share.onset, low: share.low, high: share.high, pitches, ends };
}

/** Groups over which another choice for a note is followed on. */
const HORIZON = 6;

/** Assignment and margins along the best path; `path[0]` is the start, before the first group. */
function readPath(
  notes: readonly PartedInput[],
  path: readonly Hypothesis[],
  groups: readonly (readonly number[])[],
  share: (group: readonly number[], mask: number) => Sharing,
  next: (from: Hypothesis, choice: Sharing) => Hypothesis,
): HandPath {
  const right = new Uint8Array(notes.length);
  const margin = new Float64Array(notes.length);
  const chosen = groups.map((group, g) => share(group, path[g + 1]!.mask));
  groups.forEach((group, g) => {
    const { mask } = chosen[g]!;
    const last = Math.min(groups.length, g + HORIZON);
    const kept = path[last]!.cost - path[g]!.cost;
    group.forEach((index, bit) => {
      right[index] = isRight(mask, bit) ? 1 : 0;
      if (notes[index]!.corrected?.hand !== undefined) {
        margin[index] = 1;
        return;
      }
      let at = next({ ...path[g]!, cost: 0 }, share(group, mask ^ (1 << Math.min(bit, MOST_NOTES - 1))));
      for (let k = g + 1; k < last; k++) at = next(at, chosen[k]!);
      margin[index] = 1 - Math.exp(-Math.max(0, at.cost - kept) / 3);
    });
  });
  return { right, margin };
}
