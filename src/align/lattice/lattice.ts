/**
 * One exact sum over all ways to lay a take: every moment at which a beat may begin x every length of that beat x every
 * beat of the form. A step is one beat; all strokes in it are judged together (a hidden semi-Markov model, Ferguson
 * 1980; Rabiner 1989). Forward and backward sums give each reading its share; the path is that which gathers most.
 */
import type { Evidence } from "./evidence.ts";
import { STRETCH } from "./kept-rows.ts";
import type { Laid, LatticeGrid, LatticeStart } from "./lattice-types.ts";
import { evidenceOfEnds, passBackward } from "./pass-backward.ts";
import { Forward } from "./pass-forward.ts";
import { StepTable } from "./step-table.ts";

/**
 * The path that most readings agree on, with their shares; null for a take that cannot be laid on this grid.
 *
 * @param stretch numbers of what reaches each step that are kept at a time; beyond it a take is summed forwards twice
 */
export function layOnLattice(
  evidence: Evidence,
  grid: LatticeGrid,
  start: LatticeStart,
  stretch = STRETCH,
): Laid | null {
  const table = new StepTable(evidence, grid, start, stretch);
  const forward = new Forward(table);
  const ends = forward.pass();
  if (ends.length === 0) return null;
  const laid = passBackward(table, ends, forward);
  return laid === null ? null : { ...laid, evidence: evidenceFor(table, laid.evidence) };
}

/** What a take says for a grid (see `evidenceFor`); null for a take that cannot be laid on it. */
export function evidenceOn(evidence: Evidence, grid: LatticeGrid, start: LatticeStart): number | null {
  const table = new StepTable(evidence, grid, start, 0);
  const ends = new Forward(table).pass();
  const total = ends.length === 0 ? null : evidenceOfEnds(table, ends);
  return total === null ? null : evidenceFor(table, total);
}

/**
 * How far rhythm is believed where grids of several tempos are compared: what strokes do on beats differs from player
 * to player far more than from one tempo to its double, and the chart tells the two apart.
 */
export const RHYTHM_FOR_TEMPO = 0.1;

/** Log evidence for a grid against others: what the chart says, and a share of what the rhythm says. */
function evidenceFor({ rhythmEvidence }: StepTable, total: number): number {
  return total - (1 - RHYTHM_FOR_TEMPO) * rhythmEvidence;
}
