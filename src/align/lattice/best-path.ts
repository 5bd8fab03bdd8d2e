import { LANES } from "./arrivals.ts";
import type { Laid } from "./lattice-types.ts";
import type { StepTable } from "./step-table.ts";

/** Shares of all readings from which on a step in a state may be one of the path. */
const LEAST = 1e-6;
/** Strokes that a pause must bring into place to be believed in. */
const PAUSE_PRICE = 1;

/** What is known of a state at a column: the length (from 1) that is taken best, and what waiting would bring. */
const LENGTH = 3;
const WAITS = 4;
const WAITED_FOR = 8;

const NEVER = Number.NEGATIVE_INFINITY;

/**
 * The path whose strokes lie where most readings have them: each step earns the shares of its strokes in its state,
 * and what readings agree on its moment and length (Viterbi 1967, from the end on, so that for each state at each column
 * one choice is kept). It follows the pass back, as many columns behind it as a step is long: then the shares of the
 * strokes are whole.
 */
export class BestPath {
  private readonly table: StepTable;
  private readonly shares: Float32Array;
  private readonly reach: number;
  private readonly turn: number;
  /** Of the columns that are waited for: states in which each step may be taken, and its share of all readings. */
  private readonly states: readonly Uint16Array[];
  private readonly masses: readonly Float64Array[];
  private readonly many: Int32Array;
  /** Most that can be earned from a column on by what reaches it in a state. */
  private readonly reached: readonly Float64Array[];
  /** The same by what leaves a column, and by what leaves a later one of the gap. */
  private readonly leaving: Float64Array;
  private readonly later: Float64Array;
  private readonly choice: Uint8Array;
  private most = NEVER;
  private first: { readonly column: number; readonly p: number } | null = null;

  /** @param shares of all readings that have a stroke in each state, filled in by the pass back */
  constructor(table: StepTable, shares: Float32Array) {
    const { room, size, lengths, columns } = table;
    this.table = table;
    this.shares = shares;
    this.reach = lengths.at(-1)!;
    this.turn = this.reach + 1;
    const rows = Array.from({ length: this.turn * LANES }, (_, i) => i);
    this.states = rows.map((i) => room.take(`path states ${i}`, Uint16Array, size));
    this.masses = rows.map((i) => room.take(`path masses ${i}`, Float64Array, size));
    this.many = new Int32Array(rows.length);
    this.reached = rows.slice(0, this.turn).map((i) => room.take(`path ${i}`, Float64Array, size));
    this.leaving = room.take("path leaving", Float64Array, size);
    this.later = room.take("path later", Float64Array, size);
    this.choice = room.clear("path choice", Uint8Array, columns * size);
  }

  /** Rows for the states and shares of a step, which are told by `told`. */
  rowsOf(c: number, k: number): { readonly states: Uint16Array; readonly masses: Float64Array } {
    const at = (c % this.turn) * LANES + k;
    return { states: this.states[at]!, masses: this.masses[at]! };
  }

  told(c: number, k: number, many: number): void {
    this.many[(c % this.turn) * LANES + k] = many;
  }

  /** Says that the pass back is through with a column, and has told its steps. */
  passed(c: number): void {
    const at = c + this.reach - 1;
    if (at < this.table.columns) this.settle(at);
    if (c === 0)
      for (let left = Math.min(this.reach - 1, this.table.columns) - 1; left >= 0; left--) this.settle(left);
  }

  private settle(c: number): void {
    const { table, leaving, later, turn } = this;
    const { strokeAt, lengths, grid } = table;
    if (table.isEnd(c)) {
      this.reached[c % turn]!.fill(0);
      return;
    }
    if (strokeAt[c] !== strokeAt[c + 1]) later.fill(NEVER);
    leaving.fill(NEVER);
    for (let k = 0; k < lengths.length; k++) this.leave(c, k);
    if (c <= grid.firstUntil && strokeAt[c] === 0) this.begin(c);
    this.arrive(c);
  }

  private leave(c: number, k: number): void {
    const { table, shares, leaving, choice, turn } = this;
    const { size, next, strokeAt } = table;
    const target = c + table.lengths[k]!;
    const { states, masses } = this.rowsOf(c, k);
    const many = this.many[(c % turn) * LANES + k]!;
    if (many === 0) return;
    const reached = this.reached[target % turn]!;
    const [first, last] = [strokeAt[c]!, strokeAt[target]!];
    const row = c * size;
    for (let i = 0; i < many; i++) {
      const mass = masses[i]!;
      if (mass < LEAST) continue;
      const p = states[i]!;
      let sum = reached[next[p]!]! + 2 * mass;
      for (let s = first; s < last; s++) sum += shares[s * size + p]!;
      if (sum <= leaving[p]!) continue;
      leaving[p] = sum;
      choice[row + p] = k + 1;
    }
  }

  /** The first beat may begin here. */
  private begin(column: number): void {
    const { leaving } = this;
    for (let p = 0; p < this.table.size; p++) {
      if (leaving[p]! <= this.most) continue;
      this.most = leaving[p]!;
      this.first = { column, p };
    }
  }

  /** What reaches a column goes on there, or waits for a later one of the gap. */
  private arrive(c: number): void {
    const { leaving, later, choice } = this;
    const { size, start } = this.table;
    const reached = this.reached[c % this.turn]!;
    const price = start.pauses > 0 ? PAUSE_PRICE : Number.POSITIVE_INFINITY;
    const row = c * size;
    for (let q = 0; q < size; q++) {
      const now = leaving[q]!;
      const waiting = later[q]! - price;
      reached[q] = now;
      if (waiting > now) {
        reached[q] = waiting;
        choice[row + q]! |= WAITS;
      }
      if (now > later[q]!) {
        later[q] = now;
        choice[row + q]! |= WAITED_FOR;
      }
    }
  }

  /** The path, once the pass back is through; null where there is none. */
  found(total: number): Laid | null {
    if (this.first === null) return null;
    const { table, shares, choice } = this;
    const { size, lead, lengths, grid, strokeAt, next } = table;
    const columns: number[] = [];
    const sure = new Float64Array(table.evidence.strokes.count);
    let { column, p } = this.first;
    for (;;) {
      const target = column + lengths[(choice[column * size + p]! & LENGTH) - 1]!;
      columns.push(column);
      for (let s = strokeAt[column]!; s < strokeAt[target]!; s++) sure[s] = shares[s * size + p]!;
      p = next[p]!;
      column = target;
      if (table.isEnd(column)) break;
      if ((choice[column * size + p]! & WAITS) === 0) continue;
      do column++;
      while ((choice[column * size + p]! & WAITED_FOR) === 0);
    }
    const beats = Float64Array.from([...columns, column], (c) => grid.times[c]!);
    return { evidence: total, beats, firstBeat: this.first.p - lead, sure };
  }
}
