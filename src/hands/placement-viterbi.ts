/**
 * The cheapest account of one hand's line: which placement the hand is in at every event, by dynamic programming
 * (Viterbi) over placements. A state is a shape at a pitch, or the hand free of any shape. Only states that hold one
 * of the event's keys can be entered; states that hold none of them are carried along as "outside", and are dropped
 * as soon as coming back by a shift would be cheaper, so that their number stays small and the time is linear in the
 * number of notes.
 */
import type { Freedom } from "./costs.ts";
import type { HandEvent } from "./hand-event.ts";
import type { StepCosts } from "./step-costs.ts";
import type { Strain } from "./strain.ts";
import { Trellis } from "./trellis.ts";
import { type Path, ViterbiColumns } from "./viterbi-columns.ts";

/**
 * One hand's cheapest path through its events. Empty for no events.
 *
 * @param shapes indices of the view's shapes to search
 * @param rows where it may write; what stood there is lost
 */
export function cheapestPath(
  events: readonly HandEvent[],
  costs: StepCosts,
  strain: Strain,
  freedom: Freedom,
  shapes: readonly number[] = costs.view.held.map((_, shape) => shape),
  rows: ViterbiColumns = new ViterbiColumns(32 * events.length),
): Path {
  if (events.length === 0) return { steps: [], cost: 0 };
  rows.count = 0;
  const trellis = new Trellis(costs, strain, freedom, shapes, rows);
  for (let i = 0; i < events.length; i++) trellis.add(events[i]!, i === 0 ? null : events[i - 1]!);
  return trellis.best();
}
