import { inLanes, LANES } from "./arrivals.ts";
import { BeatFactors } from "./beat-factors.ts";
import { BestPath } from "./best-path.ts";
import type { Laid } from "./lattice-types.ts";
import type { Forward } from "./pass-forward.ts";
import type { StepTable } from "./step-table.ts";

/** Shares below which a stroke's are not added to. */
const SMALL = 1e-9;
/** Factor by which what follows may part from what it is weighed against: numbers end at 1e308. */
const APART = 1e100;

/** Sums over all readings from each step on, and finds the path that most agree on; null where none reaches the end. */
export function passBackward(table: StepTable, ends: readonly number[], forward: Forward): Laid | null {
  const total = evidenceOfEnds(table, ends);
  return total === null ? null : new Backward(table, ends, total, forward).pass();
}

/** Log evidence of a take by the columns in which all its strokes are placed; null where nothing is left. */
export function evidenceOfEnds(table: StepTable, ends: readonly number[]): number | null {
  const { offset, start, next } = table;
  const top = ends.reduce((most, c) => Math.max(most, offset[c]!), Number.NEGATIVE_INFINITY);
  let sum = 0;
  for (const c of ends) {
    const factor = Math.exp(offset[c]! - top);
    for (let k = 0; k < table.lengths.length; k++) {
      const row = table.ends.find((one) => one.column === c && one.k === k);
      row?.state.forEach((p, i) => {
        sum += factor * row.value[i]! * Math.exp(start.end[next[p]!]!);
      });
    }
  }
  return sum > 0 ? top + Math.log(sum) : null;
}

class Backward {
  private readonly table: StepTable;
  private readonly total: number;
  private readonly forward: Forward;
  private readonly ended: ReadonlySet<number>;
  private readonly beat: BeatFactors;
  private readonly drift: Float64Array;
  /** Columns whose rows are kept; what follows a state that reaches each by a step of each length, by the state left. */
  private readonly turn: number;
  private readonly after: readonly Float64Array[];
  private readonly offset: Float64Array;
  /** Share of all readings that have a stroke in each state: `shares[stroke * states + p]`. */
  private readonly shares: Float32Array;
  private readonly path: BestPath;
  /** What follows a beat that begins at a column, by its length and state; states outside of which that is nothing. */
  private readonly into: readonly Float64Array[];
  private from = 0;
  private to = 0;
  private largest = 0;
  /** What follows waiting until later columns of the gap, against `exp(heldOffset)`. */
  private readonly held: Float64Array;
  private holds = false;
  private heldFrom = 0;
  private heldTo = 0;
  private heldOffset = 0;

  constructor(table: StepTable, ends: readonly number[], total: number, forward: Forward) {
    const { room, size, columns, lengths } = table;
    this.table = table;
    this.total = total;
    this.forward = forward;
    this.ended = new Set(ends);
    this.beat = new BeatFactors(table);
    this.drift = inLanes(table);
    this.turn = lengths.at(-1)! + 1;
    this.after = Array.from({ length: this.turn * LANES }, (_, i) =>
      room.clear(`after ${i}`, Float64Array, size),
    );
    this.offset = room.take("offset from behind", Float64Array, columns).fill(Number.NaN, 0, columns);
    this.shares = room.clear("shares", Float32Array, table.evidence.strokes.count * size);
    this.path = new BestPath(table, this.shares);
    this.into = Array.from({ length: LANES }, (_, k) => room.clear(`into ${k}`, Float64Array, size));
    this.held = room.clear("held from behind", Float64Array, size);
  }

  pass(): Laid | null {
    const { table, path } = this;
    for (let c = table.columns - 1; c >= 0; c--) {
      if (this.ended.has(c)) {
        this.offset[c] = 0;
        this.end(c);
      } else this.column(c);
      path.passed(c);
    }
    return path.found(this.total);
  }

  private column(c: number): void {
    const { table, forward } = this;
    if (c < forward.kept) forward.recall();
    if (c + 1 < table.columns && table.strokeAt[c] !== table.strokeAt[c + 1]) this.forget();
    for (let k = 0; k < table.lengths.length; k++) this.path.told(c, k, this.leave(c, k));
    if (this.largest > APART || (this.largest < 1 / APART && this.largest > 0)) this.rescale(c);
    if (!Number.isNaN(table.offset[c]!)) this.reach(c);
    if (table.waited[c]! > 0) this.hold(c);
    for (const row of this.into) row.fill(0, this.from, this.to);
    [this.from, this.to] = [0, 0];
    this.largest = 0;
  }

  /** Over thousands of strokes what the chart says grows, or dwindles, beyond all numbers. */
  private rescale(c: number): void {
    const { largest, from, to } = this;
    for (const row of this.into) for (let p = from; p < to; p++) row[p]! /= largest;
    this.offset[c]! += Math.log(largest);
  }

  private row(c: number, b: number): Float64Array {
    return this.after[(c % this.turn) * LANES + b]!;
  }

  private end(c: number): void {
    const { size, start, next } = this.table;
    for (let b = 0; b < LANES; b++) {
      const row = this.row(c, b);
      for (let p = 0; p < size; p++) row[p] = Math.exp(start.end[next[p]!]!);
    }
  }

  /**
   * What follows the beats of the k-th length that leave a column, and the shares of all readings that take them.
   *
   * @returns in how many states that is a share to speak of
   */
  private leave(c: number, k: number): number {
    const { table, offset } = this;
    const { lengths } = table;
    const kept = table.kept!;
    const step = c * lengths.length + k;
    const target = c + lengths[k]!;
    if (target >= table.columns || !kept.has(step) || Number.isNaN(offset[target]!)) return 0;
    const log = offset[target]! + table.rhythm[step]!;
    const whole = Math.exp(table.offset[target]! + offset[target]! - this.total);
    if (Number.isNaN(offset[c]!)) offset[c] = log;
    const scale = Math.exp(log - offset[c]!);
    const [from, to] = [kept.from[step]!, kept.to[step]!];
    const values = kept.pieceFor(step);
    let at = kept.placeOf(step);
    const factors = this.beat.weigh(c, k, from, to);
    const after = this.row(target, k);
    const into = this.into[k]!;
    const { states, masses } = this.path.rowsOf(c, k);
    let many = 0;
    let largest = 0;
    for (let p = from; p < to; p++) {
      const value = values[at++]!;
      if (value === 0) continue;
      const behind = after[p]!;
      const follows = scale * factors[p]! * behind;
      into[p] = follows;
      if (follows > largest) largest = follows;
      const share = whole * value * behind;
      if (share < SMALL || follows === 0) continue;
      states[many] = p;
      masses[many++] = share;
    }
    this.largest = Math.max(this.largest, largest);
    this.widen(from, to);
    this.share(c, k, many);
    return many;
  }

  private widen(from: number, to: number): void {
    const empty = this.from === this.to;
    this.from = empty ? from : Math.min(this.from, from);
    this.to = empty ? to : Math.max(this.to, to);
  }

  /** Adds the shares of a step to those of its strokes. */
  private share(c: number, k: number, many: number): void {
    const { shares } = this;
    const { size, strokeAt, lengths } = this.table;
    const { states, masses } = this.path.rowsOf(c, k);
    const last = strokeAt[c + lengths[k]!]!;
    for (let s = strokeAt[c]!; s < last; s++) {
      const row = s * size;
      for (let i = 0; i < many; i++) shares[row + states[i]!]! += masses[i]!;
    }
  }

  /** What follows whatever reaches a column by a step of each length. */
  private reach(c: number): void {
    const { table, offset, held, holds, drift } = this;
    if (Number.isNaN(offset[c]!)) {
      if (!holds) return;
      offset[c] = this.heldOffset;
    }
    const late = holds ? Math.exp(this.heldOffset - offset[c]!) : 0;
    const { lengths, size, lead } = table;
    const [i0, i1, i2] = this.into as [Float64Array, Float64Array, Float64Array];
    if (holds) this.widen(this.heldFrom, this.heldTo);
    const { from, to } = this;
    for (let b = 0; b < lengths.length; b++) {
      const source = c - lengths[b]!;
      if (source < 0 || !table.kept!.has(source * lengths.length + b)) continue;
      const row = this.row(c, b);
      row.fill(0, 0, size);
      const [d0, d1, d2] = [drift[b * LANES]!, drift[b * LANES + 1]!, drift[b * LANES + 2]!];
      for (let q = Math.max(1, from); q < to; q++) {
        row[q - 1] = d0 * i0[q]! + d1 * i1[q]! + d2 * i2[q]! + late * held[q]!;
      }
      if (from <= lead && lead < to) row[size - 1] = row[lead - 1]!;
    }
  }

  /** Keeps what follows a column for those of the gap before it, from which it may be reached by waiting. */
  private hold(c: number): void {
    const { table, offset, held, drift, from, to } = this;
    if (Number.isNaN(offset[c]!)) return;
    if (!this.holds) this.heldOffset = offset[c]!;
    const factor = (table.start.pauses / table.waited[c]!) * Math.exp(offset[c]! - this.heldOffset);
    const middle = (table.lengths.length >> 1) * LANES;
    const [i0, i1, i2] = this.into as [Float64Array, Float64Array, Float64Array];
    const [d0, d1, d2] = [drift[middle]!, drift[middle + 1]!, drift[middle + 2]!];
    let most = 0;
    for (let q = from; q < to; q++) {
      const value = factor * (d0 * i0[q]! + d1 * i1[q]! + d2 * i2[q]!);
      if (value > most) most = value;
      held[q]! += value;
    }
    if (most > 0) this.holds = true;
    const empty = this.heldFrom === this.heldTo;
    this.heldFrom = empty ? from : Math.min(this.heldFrom, from);
    this.heldTo = empty ? to : Math.max(this.heldTo, to);
  }

  private forget(): void {
    this.held.fill(0, this.heldFrom, this.heldTo);
    this.holds = false;
    [this.heldFrom, this.heldTo] = [0, 0];
  }
}
