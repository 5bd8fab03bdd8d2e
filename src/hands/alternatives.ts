import type { HandFit } from "../account.ts";
import type { PlacedNote } from "../take/index.ts";
import { PLACEMENT_COSTS as COST } from "./costs.ts";
import type { HandLine, PlacementRun } from "./hand-line.ts";
import { RunCosts } from "./placement-run-costs.ts";
import { anchorOf, indexOn, placementOf, shapeOf } from "./shape-states.ts";
import { FREE } from "./viterbi-columns.ts";

type Alternative = HandFit["alternatives"][number];

/**
 * For every run the other placements that explain its notes nearly as cheaply: at most
 * `PLACEMENT_COSTS.alternatives` points dearer, what comes before and after left as it is. `cost` is how much dearer.
 */
export function alternativeStays(notes: readonly PlacedNote[], lines: readonly HandLine[]): Alternative[] {
  const rows = lines.flatMap((line) => {
    const costs = new RunCosts(line);
    return line.runs.flatMap((run, s) => others(notes, line, run, s, costs));
  });
  return rows.sort((a, b) => a.first - b.first || a.row.cost - b.row.cost).map(({ row }) => row);
}

function others(
  notes: readonly PlacedNote[],
  line: HandLine,
  run: PlacementRun,
  s: number,
  costs: RunCosts,
): { first: number; row: Alternative }[] {
  const before = line.runs[s - 1]?.state ?? FREE;
  const after = line.runs[s + 1]?.state ?? FREE;
  const chosen = costs.from(run, run.state, before, after);
  const first = run.notes[0]!;
  return costs.candidates(run).flatMap((state) => {
    if (state === run.state) return [];
    const cost = costs.from(run, state, before, after, chosen + COST.alternatives) - chosen;
    if (cost > COST.alternatives) return [];
    const row = {
      firstNote: notes[first]!.id,
      lastNote: notes[run.notes[run.notes.length - 1]!]!.id,
      fingers: fingersIn(line, run, state),
      cost: Math.max(0, cost),
      shape: placementOf(line.view, state).held.shape.name,
      anchorPitch: anchorOf(line.view, state),
    };
    return [{ first, row }];
  });
}

/** Fingers for all notes from the first to the last event of the run; null for those outside. */
function fingersIn(line: HandLine, run: PlacementRun, state: number): Alternative["fingers"] {
  const { view, events } = line;
  return events.slice(run.first, run.last + 1).flatMap((event) =>
    event.keys.map((key) => {
      const index = indexOn(view, state, key);
      return index < 0 ? null : view.fingers[shapeOf(state)]![index]!;
    }),
  );
}
