/**
 * One exact sum over all ways to lay a take: every moment at which a beat may begin x every length of that beat x every
 * beat of the form. A step is one beat; all strokes in it are judged together (a hidden semi-Markov model, Ferguson
 * 1980; Rabiner 1989). Forward and backward sums give each reading its share; the path is that which gathers most.
 */
import { bestPath } from "./best-path.ts";
import type { Evidence } from "./evidence.ts";
import type { Laid, LatticeGrid, LatticeStart } from "./lattice-types.ts";
import { passBackward } from "./pass-backward.ts";
import { passForward } from "./pass-forward.ts";
import { StepTable } from "./step-table.ts";

/** The path that most readings agree on, with their shares; null for a take that cannot be laid on this grid. */
export function layOnLattice(evidence: Evidence, grid: LatticeGrid, start: LatticeStart): Laid | null {
  const table = new StepTable(evidence, grid, start);
  const ends = passForward(table);
  if (ends.length === 0) return null;
  const masses = passBackward(table, ends);
  return masses === null ? null : bestPath(table, ends, masses);
}
