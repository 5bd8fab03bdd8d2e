/**
 * Which hand plays which note, when one track carries both: the cheapest path through the take, note group by note
 * group, where each hand pays for its reach, its travel and for crossing the other. The costs are a pianist's
 * common sense [practice]: a comfortable reach is an octave, a tenth is possible, the hand travels little in little
 * time, and the hands keep their sides unless the music makes them cross.
 */

/** What the parting needs to know of a note; seconds and MIDI numbers. */
export interface PartedInput {
  readonly pitch: number;
  readonly onset: number;
  /** Time that the key is held, in seconds. */
  readonly duration: number;
}

export interface HandPath {
  /** One for each note: 1 the right hand, 0 the left. */
  readonly right: Uint8Array;
  /** One for each note, 0 to 1: how much dearer the path would be with this one note in the other hand. */
  readonly margin: Float64Array;
}

/** Costs, in one currency; a cost of 1 is about what a doubtful decision is worth. */
export const PARTING_COSTS = {
  /** Notes struck within this time (seconds) are one reach of the hand. */
  group: 0.03,
  /** Semitones that a hand reaches without cost, and the price of each further one. */
  comfortable: 12,
  stretch: 0.8,
  /** Semitones beyond which hardly a hand reaches, and the price of each further one. */
  possible: 15,
  beyond: 4,
  /** Each note beyond five in one hand. */
  sixthFinger: 8,
  /** Each semitone that the middle of the hand travels beyond what lies under the fingers. */
  underFingers: 1.7,
  travel: 0.1,
  /** Seconds after which half the price of travel is forgotten. */
  forget: 0.3,
  /** The same for a hand that struck just before (within `quick` seconds), which has no time to travel. */
  hurry: 0.08,
  quick: 0.05,
  /** Striking while holding other keys: each held key beyond one. */
  holding: 1.4,
  /** Notes struck together by one hand but held for unlike times: for each doubling of the length. */
  ragged: 1.4,
  /** Each semitone on the wrong side of the take's own middle. */
  side: 0.07,
  /** Semitones beyond which the wrong side is not more wrong: a hand that has crossed may as well go far. */
  sideMost: 14,
  /** Crossing the other hand, and each stroke while the hands are crossed. */
  crossing: 1,
  crossed: 0.2,
  /** Both hands in the same key's reach at once: each note of one hand within the span of the other. */
  entangled: 0.25,
} as const;

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
  /** Bit for each note of the group, set when the right hand plays it. */
  readonly mask: number;
}

const BEAM = 32;
/** Groups larger than this are parted at one place only; no hand pair plays more. */
const MOST_NOTES = 24;

/**
 * Parts notes, sorted by onset, between two hands.
 *
 * @param middle MIDI number on whose sides the hands are at home; the take's own middle when left out
 * @example partByPath(notes).right[0] // 1 when the first note lies in the right hand
 */
export function partByPath(notes: readonly PartedInput[], middle: number = middleOf(notes)): HandPath {
  const groups = groupNotes(notes);
  const home = (pitch: number, time: number): HandState => ({
    centre: pitch,
    time,
    low: pitch,
    high: pitch,
    pitches: [],
    ends: [],
  });
  let beam: Hypothesis[] = [
    { cost: 0, left: home(middle - 10, -10), right: home(middle + 10, -10), from: null, mask: 0 },
  ];
  for (const group of groups) {
    const best = new Map<number, Hypothesis>();
    const masks = assignments(notes, group);
    for (const hypothesis of beam) {
      for (const mask of masks) {
        const next = play(hypothesis, notes, group, mask, middle);
        const key = Math.round(next.left.centre) * 256 + Math.round(next.right.centre);
        const rival = best.get(key);
        if (rival === undefined || next.cost < rival.cost) best.set(key, next);
      }
    }
    beam = [...best.values()].sort((a, b) => a.cost - b.cost).slice(0, BEAM);
  }
  const path: Hypothesis[] = [];
  for (let at: Hypothesis | null = beam[0] ?? null; at !== null; at = at.from) path.push(at);
  return readPath(path.reverse(), groups, notes, middle);
}

/** The pitch that best parts the take's notes into a low and a high half (two means), in MIDI numbers. */
export function middleOf(notes: readonly { readonly pitch: number }[]): number {
  if (notes.length === 0) return 60;
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
  // Pulled to middle C, where most players' hands meet, so that a take in one register is not cut through its line.
  return (middle + 60) / 2;
}

/** Indices of notes struck together, each group sorted by pitch. */
function groupNotes(notes: readonly PartedInput[]): number[][] {
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

/** Ways to share a group: the lowest k to the left, for every k, and the same with the hands crossed. */
function assignments(notes: readonly PartedInput[], group: readonly number[]): number[] {
  const n = Math.min(group.length, MOST_NOTES);
  const all = 2 ** n - 1;
  const masks: number[] = [];
  for (let k = 0; k <= n; k++) {
    // A unison stays in one hand: two hands do not strike one key.
    if (k > 0 && k < n && notes[group[k - 1]!]!.pitch === notes[group[k]!]!.pitch) continue;
    const upper = all - (2 ** k - 1);
    masks.push(upper);
    if (k > 0 && k < n) masks.push(all - upper);
  }
  return masks;
}

function play(
  from: Hypothesis,
  notes: readonly PartedInput[],
  group: readonly number[],
  mask: number,
  middle: number,
): Hypothesis {
  const left = strike(from.left, notes, group, mask, 0);
  const right = strike(from.right, notes, group, mask, 1);
  let cost = from.cost + left.cost + right.cost;
  group.forEach((index, bit) => {
    const pitch = notes[index]!.pitch;
    const toRight = ((mask >> Math.min(bit, MOST_NOTES - 1)) & 1) === 1;
    const beyond = Math.max(0, toRight ? middle - pitch : pitch - middle);
    cost += PARTING_COSTS.side * Math.min(PARTING_COSTS.sideMost, beyond);
  });
  const overlap = left.state.high - right.state.low;
  if (left.state.centre > right.state.centre) {
    const already = from.left.centre > from.right.centre;
    cost += already ? PARTING_COSTS.crossed : PARTING_COSTS.crossing;
  } else if (overlap >= 0 && left.state.pitches.length > 0 && right.state.pitches.length > 0) {
    cost += PARTING_COSTS.entangled;
  }
  return { cost, left: left.state, right: right.state, from, mask };
}

/** One hand's share of a group: what it costs and where the hand is then. */
function strike(
  hand: HandState,
  notes: readonly PartedInput[],
  group: readonly number[],
  mask: number,
  side: 0 | 1,
): { cost: number; state: HandState } {
  const costs = PARTING_COSTS;
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  let sum = 0;
  let struck = 0;
  let now = 0;
  const pitches: number[] = [];
  const ends: number[] = [];
  group.forEach((index, bit) => {
    if (((mask >> Math.min(bit, MOST_NOTES - 1)) & 1) !== side) return;
    const note = notes[index]!;
    low = Math.min(low, note.pitch);
    high = Math.max(high, note.pitch);
    sum += note.pitch;
    struck++;
    now = note.onset;
    pitches.push(note.pitch);
    ends.push(note.onset + note.duration);
  });
  if (struck === 0) return { cost: 0, state: hand };
  let reachLow = low;
  let reachHigh = high;
  let held = 0;
  let [shortest, longest] = [Number.POSITIVE_INFINITY, 0];
  for (const end of ends) {
    shortest = Math.min(shortest, end - now);
    longest = Math.max(longest, end - now);
  }
  // A key is let go early or late by some hundredths of a second; only what is held on counts for the reach.
  for (let k = 0; k < hand.pitches.length; k++) {
    if (hand.ends[k]! <= now + 0.05 || pitches.includes(hand.pitches[k]!)) continue;
    held++;
    reachLow = Math.min(reachLow, hand.pitches[k]!);
    reachHigh = Math.max(reachHigh, hand.pitches[k]!);
    pitches.push(hand.pitches[k]!);
    ends.push(hand.ends[k]!);
  }
  const reach = reachHigh - reachLow;
  const centre = sum / struck;
  const outside = Math.max(0, hand.low - low, high - hand.high, Math.abs(centre - hand.centre));
  const memory = 0.5 + 0.5 * Math.exp(-(now - hand.time) / costs.forget);
  const cost =
    costs.stretch * Math.max(0, Math.min(reach, costs.possible) - costs.comfortable) +
    costs.beyond * Math.max(0, reach - costs.possible) +
    costs.sixthFinger * Math.max(0, pitches.length - 5) +
    costs.ragged * Math.min(2, Math.log2(longest / Math.max(0.03, shortest))) +
    costs.holding * Math.max(0, held - 1) +
    (costs.travel + (now - hand.time < costs.quick ? costs.hurry : 0)) *
      Math.max(0, outside - costs.underFingers) *
      memory;
  return { cost, state: { centre, time: now, low, high, pitches, ends } };
}

/** Assignment and margins along the best path; `path[0]` is the start, before the first group. */
function readPath(
  path: readonly Hypothesis[],
  groups: readonly number[][],
  notes: readonly PartedInput[],
  middle: number,
): HandPath {
  const right = new Uint8Array(notes.length);
  const margin = new Float64Array(notes.length);
  const horizon = 6;
  groups.forEach((group, g) => {
    const { mask } = path[g + 1]!;
    const last = Math.min(groups.length, g + horizon);
    const kept = path[last]!.cost - path[g]!.cost;
    group.forEach((index, bit) => {
      const place = Math.min(bit, MOST_NOTES - 1);
      right[index] = (mask >> place) & 1;
      let at = play({ ...path[g]!, cost: 0 }, notes, group, mask ^ (1 << place), middle);
      for (let k = g + 1; k < last; k++) at = play(at, notes, groups[k]!, path[k + 1]!.mask, middle);
      margin[index] = 1 - Math.exp(-Math.max(0, at.cost - kept) / 3);
    });
  });
  return { right, margin };
}
