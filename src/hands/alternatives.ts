import type { HandFit } from "../account.ts";
import type { PlacedNote } from "../take/index.ts";
import { PLACEMENT_COSTS as COST } from "./costs.ts";
import type { HandLine, Stay } from "./hand-line.ts";
import { FREE } from "./path-columns.ts";
import { candidatesFor, costOfStay } from "./stay-costs.ts";
import { anchorOf, indexOn, placementOf, shapeOf } from "./view.ts";

type Alternative = HandFit["alternatives"][number];

/**
 * For every stay the other placements that explain its notes nearly as cheaply: at most
 * `PLACEMENT_COSTS.alternatives` points dearer, what comes before and after left as it is. `cost` is how much dearer.
 */
export function alternativeStays(notes: readonly PlacedNote[], lines: readonly HandLine[]): Alternative[] {
  const rows = lines.flatMap((line) => line.stays.flatMap((stay, s) => others(notes, line, stay, s)));
  return rows.sort((a, b) => a.first - b.first || a.row.cost - b.row.cost).map(({ row }) => row);
}

function others(
  notes: readonly PlacedNote[],
  line: HandLine,
  stay: Stay,
  s: number,
): { first: number; row: Alternative }[] {
  const before = line.stays[s - 1]?.state ?? FREE;
  const after = line.stays[s + 1]?.state ?? FREE;
  const chosen = costOfStay(line, stay, stay.state, before, after);
  const first = stay.notes[0]!;
  return [...candidatesFor(line, stay)].flatMap((state) => {
    if (state === stay.state) return [];
    const cost = costOfStay(line, stay, state, before, after, chosen + COST.alternatives) - chosen;
    if (cost > COST.alternatives) return [];
    const row = {
      firstNote: notes[first]!.id,
      lastNote: notes[stay.notes[stay.notes.length - 1]!]!.id,
      fingers: fingersIn(line, stay, state),
      cost: Math.max(0, cost),
      shape: placementOf(line.view, state).held.shape.name,
      anchorPitch: anchorOf(line.view, state),
    };
    return [{ first, row }];
  });
}

/** Fingers for all notes from the first to the last event of the stay; null for those outside. */
function fingersIn(line: HandLine, stay: Stay, state: number): Alternative["fingers"] {
  const { view, events } = line;
  return events.slice(stay.first, stay.last + 1).flatMap((event) =>
    event.keys.map((key) => {
      const index = indexOn(view, state, key);
      return index < 0 ? null : view.fingers[shapeOf(state)]![index]!;
    }),
  );
}
