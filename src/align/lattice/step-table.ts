/** The steps of a lattice that are followed, and what reaches their ends. */
import { beatShares } from "./beat-shares.ts";
import type { Evidence } from "./evidence.ts";
import { KeptRows } from "./kept-rows.ts";
import type { LatticeGrid, LatticeStart } from "./lattice-types.ts";
import { PinWeights } from "./pin-weights.ts";
import type { Room } from "./room.ts";
import { rhythmOf, strokesAt } from "./step-rhythm.ts";

/** Steps with a smaller share by the rhythm alone are not weighed against the chart. */
const CLOSED = 5e-4;

/** What reaches a column in which all strokes are placed, by steps of one length. */
export interface EndRow {
  readonly column: number;
  readonly k: number;
  /** State of the beat that a step takes, and the share of readings, against `exp(offset)` of the column. */
  readonly state: Int32Array;
  readonly value: Float64Array;
}

export class StepTable {
  /** States, and the one that is reached from the form's end and from the lead. */
  readonly size: number;
  readonly lead: number;
  readonly columns: number;
  readonly lengths: readonly number[];
  readonly evidence: Evidence;
  readonly grid: LatticeGrid;
  readonly start: LatticeStart;
  readonly drift: Float64Array;
  /** First stroke that belongs to a beat beginning at the column or later. */
  readonly strokeAt: Int32Array;
  /** Log density of the rhythm of each step, and whether the step is followed. */
  readonly rhythm: Float64Array;
  readonly open: Uint8Array;
  /** Log evidence of the strokes by their rhythm alone. */
  readonly rhythmEvidence: number;
  /** Shares of the readings up to each step's end, against `exp(offset)` of the column that is reached; null if not asked for. */
  readonly kept: KeptRows | null;
  readonly ends: EndRow[] = [];
  readonly offset: Float64Array;
  /** Columns of the same gap between strokes from which a column may be reached by waiting. */
  readonly waited: Int32Array;
  readonly room: Room;
  readonly pins: PinWeights | null;
  /** The state after a beat: the form's last beat leads to its first, as the lead's does. */
  readonly next: Uint16Array;

  /** @param stretch numbers of rows that are kept at a time; 0 where none will be asked for */
  constructor(evidence: Evidence, grid: LatticeGrid, start: LatticeStart, stretch: number) {
    this.evidence = evidence;
    this.grid = grid;
    this.start = start;
    this.size = evidence.form.states;
    this.lead = evidence.form.lead;
    this.columns = grid.times.length;
    this.lengths = grid.lengths;
    this.drift = grid.drift.map(Math.exp);
    const room = evidence.room;
    this.room = room;
    this.kept = stretch === 0 ? null : new KeptRows(room, this.columns * this.lengths.length, stretch);
    this.waited = room.clear("waited", Int32Array, this.columns);
    this.offset = room.take("offset", Float64Array, this.columns).fill(Number.NaN, 0, this.columns);
    this.next = Uint16Array.from({ length: this.size }, (_, p) => (p + 1 === this.size ? this.lead : p + 1));
    this.pins = start.pins.length === 0 ? null : new PinWeights(start.pins, evidence.form);
    this.strokeAt = strokesAt(evidence, grid);
    this.rhythm = rhythmOf(evidence, grid, this.strokeAt);
    const byRhythm = beatShares(evidence, grid, this.rhythm, this.strokeAt, CLOSED);
    this.open = byRhythm.open;
    this.rhythmEvidence = byRhythm.evidence;
  }

  /** Whether all strokes are placed by a step to a column. */
  isEnd(target: number): boolean {
    return this.strokeAt[target]! >= this.evidence.strokes.count;
  }
}
