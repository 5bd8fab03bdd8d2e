/** Fingers for keys that are struck together: intervals, octaves, chords, one alone or one after the other. */
import type { Finger } from "../take/index.ts";
import { pairRules } from "./ergonomics.ts";
import type { HandEvent } from "./events.ts";
import { fingerSpan, reach } from "./finger-spans.ts";

/** Points of a weak finger in a chord: the little finger has the weight of the hand behind it. [practice] */
const WEAK: Readonly<Record<Finger, number>> = { 1: 0, 2: 0, 3: 0, 4: 0.5, 5: 0.4 };
/** A finger leaves its key and strikes another one in the next chord: the line is broken. [practice] */
const LEAVES_KEY = 3;
/** Two fingers would have to cross: 3 below 2. */
const CROSSES = 2;
/** The hand that holds an octave moves as a whole: there is little that it could join. [practice] */
const OCTAVE = 12;
const OCTAVE_SHARE = 0.2;
/** Another finger takes a key that is struck again. */
const CHANGES_FINGER = 0.5;

interface Candidate {
  readonly fingers: readonly Finger[];
  readonly cost: number;
}

/** True where the keys can be held in comfort with the known fingers kept. */
export function canHold(keys: readonly number[], known: readonly (Finger | null)[]): boolean {
  const from = (chosen: readonly Finger[]): boolean => {
    const n = chosen.length;
    if (n === keys.length) return true;
    const highest = 5 - (keys.length - 1 - n);
    for (let finger = (n === 0 ? 1 : chosen[n - 1]! + 1) as Finger; finger <= highest; finger++) {
      const given = known[n] ?? null;
      if (given !== null && given !== finger) continue;
      const reached = chosen.every(
        (other, m) => keys[n]! - keys[m]! <= fingerSpan(other, finger as Finger).maxComf,
      );
      if (reached && from([...chosen, finger as Finger])) return true;
    }
    return false;
  };
  return from([]);
}

/**
 * The known fingers with those of all chords filled in: rising, each pair within reach, the cheapest by the span
 * rules; a row that no hand can hold stays as it is. Chords that follow each other are fingered together, so that
 * a row of thirds goes 1-3, 2-4, 3-5 and no finger has to leap from key to key where another is free.
 */
export function fillChords(
  events: readonly HandEvent[],
  known: readonly (readonly (Finger | null)[])[],
): (Finger | null)[][] {
  const filled = known.map((row) => [...row]);
  for (let i = 0; i < events.length; ) {
    const options: Candidate[][] = [];
    while (i < events.length && events[i]!.keys.length > 1) {
      const found = candidates(events[i]!.keys, known[i]!);
      if (found.length === 0) break;
      options.push(found);
      i++;
    }
    const start = i - options.length;
    cheapestRow(events.slice(start, i), options).forEach((fingers, k) => {
      filled[start + k] = [...fingers];
    });
    if (options.length === 0 || (i < events.length && events[i]!.keys.length > 1)) i++;
  }
  return filled;
}

function cheapestRow(
  events: readonly HandEvent[],
  options: readonly (readonly Candidate[])[],
): (readonly Finger[])[] {
  if (events.length === 0) return [];
  let costs = options[0]!.map(({ cost }) => cost);
  const backs: number[][] = [];
  for (let i = 1; i < events.length; i++) {
    const back: number[] = [];
    costs = options[i]!.map((option, n) => {
      let cheapest = Number.POSITIVE_INFINITY;
      options[i - 1]!.forEach((before, m) => {
        const cost = costs[m]! + linkCost(events[i - 1]!, before.fingers, events[i]!, option.fingers);
        if (cost < cheapest) [cheapest, back[n]] = [cost, m];
      });
      return cheapest + option.cost;
    });
    backs.push(back);
  }
  let n = costs.indexOf(Math.min(...costs));
  const row: (readonly Finger[])[] = [];
  for (let i = events.length - 1; i >= 0; i--) {
    row.push(options[i]![n]!.fingers);
    if (i > 0) n = backs[i - 1]![n]!;
  }
  return row.reverse();
}

function linkCost(
  before: HandEvent,
  from: readonly Finger[],
  event: HandEvent,
  to: readonly Finger[],
): number {
  let cost = 0;
  to.forEach((finger, n) => {
    const same = from.indexOf(finger);
    if (same >= 0 && before.keys[same] !== event.keys[n]) cost += LEAVES_KEY;
    const again = before.keys.indexOf(event.keys[n]!);
    if (again >= 0 && from[again] !== finger) cost += CHANGES_FINGER;
    from.forEach((left, m) => {
      if (left === finger) return;
      const { minPrac } = fingerSpan(left, finger);
      if (reach(left, before.keys[m]!, finger, event.keys[n]!) < minPrac) cost += CROSSES;
    });
  });
  const wide = event.keys[event.keys.length - 1]! - event.keys[0]! >= OCTAVE;
  return cost * (1 - event.ease) * (wide ? OCTAVE_SHARE : 1);
}

/** All fingerings of a chord within reach, with their points. */
function candidates(keys: readonly number[], known: readonly (Finger | null)[]): Candidate[] {
  const found: Candidate[] = [];
  const choose = (chosen: readonly Finger[], cost: number): void => {
    const n = chosen.length;
    if (n === keys.length) {
      found.push({ fingers: chosen, cost });
      return;
    }
    const lowest = n === 0 ? 1 : chosen[n - 1]! + 1;
    const highest = 5 - (keys.length - 1 - n);
    for (let finger = lowest as Finger; finger <= highest; finger++) {
      const given = known[n];
      if (given !== null && given !== undefined && given !== finger) continue;
      let more = WEAK[finger as Finger];
      let reachable = true;
      for (let m = 0; m < n && reachable; m++) {
        const semitones = keys[n]! - keys[m]!;
        const span = fingerSpan(chosen[m]!, finger as Finger);
        reachable = semitones <= span.maxPrac;
        pairRules(keys[m]!, chosen[m]!, keys[n]!, finger as Finger, (_, points) => {
          more += points;
        });
      }
      if (reachable) choose([...chosen, finger as Finger], cost + more);
    }
  };
  choose([], 0);
  return found;
}
