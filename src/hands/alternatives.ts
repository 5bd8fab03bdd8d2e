import type { HandFit } from "../account.ts";
import type { PlacedNote } from "../take/index.ts";
import { PLACEMENT_COSTS as COST } from "./costs.ts";
import type { HandLine, Stay } from "./hand-line.ts";
import { FREE } from "./path.ts";
import { pairCost, shiftCost } from "./step-costs.ts";
import { anchorOf, indexOn, lowOf, placementOf, shapeOf, stateOf } from "./view.ts";

/**
 * For every stay the other placements that explain its notes nearly as cheaply: at most
 * `PLACEMENT_COSTS.alternatives` points dearer, what comes before and after left as it is. `cost` is how much dearer.
 */
export function alternativeStays(
  notes: readonly PlacedNote[],
  lines: readonly HandLine[],
): HandFit["alternatives"] {
  const rows = lines.flatMap((line) => line.stays.flatMap((stay, s) => others(notes, line, stay, s)));
  return rows.sort((a, b) => a.first - b.first || a.row.cost - b.row.cost).map(({ row }) => row);
}

function others(
  notes: readonly PlacedNote[],
  line: HandLine,
  stay: Stay,
  s: number,
): { first: number; row: HandFit["alternatives"][number] }[] {
  const { view } = line;
  const before = line.stays[s - 1]?.state ?? FREE;
  const after = line.stays[s + 1]?.state ?? FREE;
  const chosen = costOfStay(line, stay, stay.state, before, after);
  const candidates = new Set<number>();
  for (let i = stay.first; i <= Math.min(stay.last, stay.first + 1); i++) {
    for (const key of line.events[i]!.keys) {
      view.semitones.forEach((semitones, shape) => {
        for (const semitone of semitones) candidates.add(stateOf(shape, key - semitone));
      });
    }
  }
  candidates.delete(stay.state);
  const first = stay.notes[0]!;
  return [...candidates].flatMap((state) => {
    const cost = costOfStay(line, stay, state, before, after, chosen + COST.alternatives) - chosen;
    if (!(cost <= COST.alternatives)) return [];
    const placement = placementOf(view, state);
    return [
      {
        first,
        row: {
          firstNote: notes[first]!.id,
          lastNote: notes[stay.notes[stay.notes.length - 1]!]!.id,
          fingers: fingersIn(line, stay, state),
          cost: Math.max(0, cost),
          shape: placement.held.shape.name,
          anchorPitch: anchorOf(view, state),
        },
      },
    ];
  });
}

/** Cost of the stay's events from another state, shifts in and out included; gives up beyond `limit`. */
function costOfStay(
  line: HandLine,
  stay: Stay,
  state: number,
  before: number,
  after: number,
  limit = Number.POSITIVE_INFINITY,
): number {
  const { events, costs } = line;
  let cost = costs.arrival(events[stay.first]!, state) + moveInto(line, stay.first, before, state);
  for (let i = stay.first; i <= stay.last && cost <= limit; i++) {
    const event = events[i]!;
    if (i > stay.first) cost += costs.staying(state, event, events[i - 1]!);
    cost +=
      line.steps[i]!.manner === "slide" && state === stay.state
        ? COST.slide.long
        : (costs.emission(event, state) ?? costs.outside(event, state));
  }
  if (after !== FREE && cost <= limit) cost += moveInto(line, stay.last + 1, state, after);
  return cost;
}

function moveInto(line: HandLine, i: number, from: number, to: number): number {
  const event = line.events[i];
  const before = line.events[i - 1];
  if (event === undefined || before === undefined || from === to || from === FREE) return 0;
  const { view } = line;
  const place = (state: number) => lowOf(state) + view.thumbs[shapeOf(state)]!;
  const [keyA, keyB] = [before.keys[before.keys.length - 1]!, event.keys[event.keys.length - 1]!];
  const [a, b] = [indexOn(view, from, keyA), indexOn(view, to, keyB)];
  const pair =
    a < 0 || b < 0
      ? 0
      : pairCost(view.fingers[shapeOf(from)]![a]!, view.fingers[shapeOf(to)]![b]!, keyB - keyA);
  return shiftCost(place(to) - place(from), event.ease, pair);
}

/** Fingers for all notes from the first to the last event of the stay; null for those outside. */
function fingersIn(line: HandLine, stay: Stay, state: number): HandFit["alternatives"][number]["fingers"] {
  const { view, events } = line;
  return events.slice(stay.first, stay.last + 1).flatMap((event) =>
    event.keys.map((key) => {
      const index = indexOn(view, state, key);
      return index < 0 ? null : view.fingers[shapeOf(state)]![index]!;
    }),
  );
}
