import type { PlacementMap } from "./placement-map-schema.ts";
import { anchorPitch, type Placement } from "./placements.ts";

/** Octaves in which a placement may be taken, as semitones from where the map draws it. */
const OCTAVES = [-12, 0, 12, 24] as const;

/** Among ways of one length: fewer changes of shape, then nearer to the middle of the keyboard. In semitones. */
const SHAPE_CHANGE = 0.01;
const FROM_MIDDLE = 0.0001;
const MIDDLE = 64;

interface Place {
  readonly placement: Placement;
  /** Index among the chord's placements. */
  readonly index: number;
  readonly octave: number;
}

/**
 * The closed way through the form on which the hand moves least: one placement on every chord that has any, in any
 * octave, from the first chord round to the first again. Dynamic programming for every possible start.
 *
 * @param places the placements of each chord, in the form's order
 * @param idOf the map's id of the n-th placement on the k-th chord
 */
export function shortestWay(
  places: readonly (readonly Placement[])[],
  idOf: (chord: number, n: number) => string,
): PlacementMap["way"] {
  const stops = places.flatMap((list, chord) =>
    list.length === 0 ? [] : [{ chord, choices: inOctaves(list) }],
  );
  const chosen = new Map<number, Place>();
  if (stops.length > 0) {
    const way = closedWay(stops.map(({ choices }) => choices));
    stops.forEach(({ chord }, k) => {
      chosen.set(chord, way[k]!);
    });
  }
  let before: Place | null = chosen.get(stops[stops.length - 1]?.chord ?? -1) ?? null;
  let distance = 0;
  let kept = 0;
  const steps = places.map((_, chord) => {
    const place = chosen.get(chord);
    if (place === undefined) return { span: chord, placement: null, anchorPitch: null, shift: null };
    const shift = before === null ? 0 : position(place) - position(before);
    distance += Math.abs(shift);
    if (shift === 0 && stops.length > 1) kept++;
    before = place;
    return {
      span: chord,
      placement: idOf(chord, place.index),
      anchorPitch: anchorPitch(place.placement) + place.octave,
      shift,
    };
  });
  return { steps, distance, kept };
}

function inOctaves(list: readonly Placement[]): Place[] {
  return list.flatMap((placement, index) => OCTAVES.map((octave) => ({ placement, index, octave })));
}

/** Where the thumb lies, or would lie: the place of the hand. */
function position({ placement, octave }: Place): number {
  const { held, low } = placement;
  const outer = held.hand === "right" ? 0 : held.semitones.length - 1;
  const unused = held.hand === "right" ? held.fingers[0]! - 1 : 1 - held.fingers[outer]!;
  return low + octave + held.semitones[outer]! - 2 * unused;
}

function closedWay(stops: readonly (readonly Place[])[]): Place[] {
  let best: Place[] = [];
  let cheapest = Number.POSITIVE_INFINITY;
  for (const start of stops[0]!) {
    const { way, cost } = wayFrom(start, stops, cheapest);
    if (cost < cheapest) [best, cheapest] = [way, cost];
  }
  return best;
}

function wayFrom(
  start: Place,
  stops: readonly (readonly Place[])[],
  limit: number,
): { readonly way: Place[]; readonly cost: number } {
  let costs = [fromMiddle(start)];
  let last: readonly Place[] = [start];
  const backs: number[][] = [];
  for (const choices of stops.slice(1)) {
    const back: number[] = [];
    const next = choices.map((place, n) => {
      let cheapest = Number.POSITIVE_INFINITY;
      for (let m = 0; m < last.length; m++) {
        const cost = costs[m]! + move(last[m]!, place);
        if (cost < cheapest) [cheapest, back[n]] = [cost, m];
      }
      return cheapest + fromMiddle(place);
    });
    if (Math.min(...next) >= limit) return { way: [], cost: Number.POSITIVE_INFINITY };
    backs.push(back);
    [costs, last] = [next, choices];
  }
  const closed = costs.map((cost, n) => cost + move(last[n]!, start));
  const cost = Math.min(...closed);
  let n = closed.indexOf(cost);
  const way: Place[] = [];
  for (let k = backs.length - 1; k >= 0; k--) {
    way.push(stops[k + 1]![n]!);
    n = backs[k]![n]!;
  }
  way.push(start);
  return { way: way.reverse(), cost };
}

function move(from: Place, to: Place): number {
  const change = from.placement.held.shape === to.placement.held.shape ? 0 : SHAPE_CHANGE;
  return Math.abs(position(to) - position(from)) + change;
}

function fromMiddle(place: Place): number {
  return FROM_MIDDLE * Math.abs(position(place) - MIDDLE);
}
