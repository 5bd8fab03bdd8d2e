import type { StepTable } from "./step-table.ts";

/**
 * Nats below the best of the last beat at which a state is no longer followed: more among the first strokes of a take,
 * while rare beginnings are still to be heard out.
 */
const BEAM = 8;
const BEAM_FIRST = 14;
const FIRST = 60;

/**
 * Sums over all readings up to each step.
 *
 * @returns columns in which all strokes have been placed
 */
export function passForward(table: StepTable): number[] {
  return new Forward(table).pass();
}

class Forward {
  private readonly table: StepTable;
  /** What reaches a column by state, for one length of the step; the states of which it is not zero. */
  private readonly mix: Float64Array;
  private readonly touched: Int32Array;
  private many = 0;
  private readonly factors: Float64Array;
  /** What reached the columns of the gap between strokes so far: it may wait there. */
  private readonly held: Float64Array;
  private readonly heldStates: number[] = [];
  private heldOffset = 0;
  private heldColumns = 0;
  /** Log of the best value at each column. */
  private readonly best: Float64Array;

  constructor(table: StepTable) {
    this.table = table;
    this.mix = new Float64Array(table.size);
    this.touched = new Int32Array(table.size);
    this.factors = new Float64Array(table.size);
    this.held = new Float64Array(table.size);
    this.best = new Float64Array(table.columns).fill(Number.NEGATIVE_INFINITY);
  }

  pass(): number[] {
    const { table } = this;
    const { columns, lengths, grid, strokeAt } = table;
    const reach = lengths.at(-1)!;
    const ends: number[] = [];
    for (let c = 0; c < columns; c++) {
      const reached = !Number.isNaN(table.offset[c]!);
      if (strokeAt[c]! >= table.evidence.strokes.count) {
        if (reached) ends.push(c);
        continue;
      }
      if (c > 0 && strokeAt[c] !== strokeAt[c - 1]) this.forget();
      let floor = Number.NEGATIVE_INFINITY;
      for (let b = Math.max(0, c - reach); b <= c; b++) floor = Math.max(floor, this.best[b]!);
      const opening = c <= grid.firstUntil && strokeAt[c] === 0;
      if (!reached && !opening && this.heldStates.length === 0) continue;
      for (let k = 0; k < lengths.length; k++) {
        const target = c + lengths[k]!;
        if (target >= columns || table.open[c * lengths.length + k] === 0) continue;
        if (opening && strokeAt[target] === 0) continue;
        this.step(c, k, opening, floor, strokeAt[c]! < FIRST ? BEAM_FIRST : BEAM);
      }
      if (reached && table.start.pauses > 0) this.hold(c);
    }
    return ends;
  }

  private step(c: number, k: number, opening: boolean, floor: number, beam: number): void {
    const { table, mix, touched, factors } = this;
    const kinds = table.lengths.length;
    const target = c + table.lengths[k]!;
    const base = this.gather(c, k, opening);
    table.emission(c, k, touched, this.many, factors);
    const log = table.rhythm[c * kinds + k]!;
    let largest = 0;
    for (let i = 0; i < this.many; i++) largest = Math.max(largest, mix[touched[i]!]! * factors[i]!);
    const score = base + log + Math.log(largest);
    if (largest > 0 && score > floor - beam) {
      if (Number.isNaN(table.offset[target]!)) table.offset[target] = score;
      const scale = Math.exp(base + log - table.offset[target]!);
      const least = Math.exp(Math.max(floor, score) - beam - table.offset[target]!);
      const from = table.entries;
      for (let i = 0; i < this.many; i++) {
        const p = touched[i]!;
        const value = mix[p]! * factors[i]! * scale;
        if (value > least) table.add(p, factors[i]!, value);
      }
      if (table.entries > from) {
        table.closeRow(c, k, from);
        this.best[target] = Math.max(this.best[target]!, score);
      }
    }
    for (let i = 0; i < this.many; i++) mix[touched[i]!] = 0;
    this.many = 0;
  }

  private touch(p: number, value: number): void {
    if (value === 0) return;
    if (this.mix[p] === 0) this.touched[this.many++] = p;
    this.mix[p]! += value;
  }

  /** Gathers into `mix` all readings that take the k-th length from a column; returns the log of what it is against. */
  private gather(c: number, k: number, opening: boolean): number {
    const { table } = this;
    const { drift, start, state, value } = table;
    const kinds = table.lengths.length;
    const offset = table.offset[c]!;
    const base = Number.isNaN(offset) ? (opening ? 0 : this.heldOffset) : offset;
    if (opening) {
      for (let p = 0; p < table.size; p++) {
        const log = start.begin[p]! + (start.known === null ? 0 : start.known(c, p)) - base;
        if (log > -60) this.touch(p, Math.exp(log));
      }
    }
    for (let b = 0; b < kinds; b++) {
      const row = table.rowOf[c * kinds + b]!;
      if (row < 0) continue;
      const factor = drift[b * kinds + k]!;
      const to = table.entryOf[row + 1]!;
      for (let e = table.entryOf[row]!; e < to; e++) this.touch(table.next(state[e]!), factor * value[e]!);
    }
    if (this.heldStates.length > 0) {
      table.waited[c] = this.heldColumns;
      const factor =
        (start.pauses / this.heldColumns) *
        drift[(kinds >> 1) * kinds + k]! *
        Math.exp(this.heldOffset - base);
      for (const p of this.heldStates) this.touch(p, factor * this.held[p]!);
    }
    return base;
  }

  /** Keeps what reached a column, so that it may go on later in the same gap. */
  private hold(c: number): void {
    const { table, held, heldStates } = this;
    const kinds = table.lengths.length;
    if (this.heldColumns === 0) this.heldOffset = table.offset[c]!;
    const factor = Math.exp(table.offset[c]! - this.heldOffset);
    this.heldColumns++;
    for (let b = 0; b < kinds; b++) {
      const row = table.rowOf[c * kinds + b]!;
      if (row < 0) continue;
      for (let e = table.entryOf[row]!; e < table.entryOf[row + 1]!; e++) {
        const p = table.next(table.state[e]!);
        if (held[p] === 0) heldStates.push(p);
        held[p]! += factor * table.value[e]!;
      }
    }
  }

  private forget(): void {
    for (const p of this.heldStates) this.held[p] = 0;
    this.heldStates.length = 0;
    this.heldColumns = 0;
  }
}
