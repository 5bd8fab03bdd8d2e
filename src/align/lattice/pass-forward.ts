import { Arrivals, type Arrived } from "./arrivals.ts";
import { BeatFactors } from "./beat-factors.ts";
import type { StepTable } from "./step-table.ts";

/**
 * Nats below the best of the last beat at which a state is no longer followed: more among the first strokes of a take,
 * while rare beginnings are still to be heard out. Over long forms the true place lies further back for a while: with 8
 * (and 14) one of sixty solos of the fitted half is lost at a told tempo, with 14 and with 20 none.
 */
const BEAM = 14;
const BEAM_FIRST = 20;
const FIRST = 60;

/** Sums over all readings up to each step. */
export class Forward {
  private readonly table: StepTable;
  private readonly arrivals: Arrivals;
  private readonly beat: BeatFactors;
  private readonly products: Float64Array;
  /** Log of the best value at each column. */
  private readonly best: Float64Array;
  /** First column of each stretch that was begun anew, and what was there. */
  private readonly stretches: { readonly column: number; readonly arrived: Arrived }[] = [];
  /** First column of the stretch whose rows are kept. */
  kept = 0;

  constructor(table: StepTable) {
    const { room, columns } = table;
    this.table = table;
    this.arrivals = new Arrivals(table);
    this.beat = new BeatFactors(table);
    this.products = room.take("products", Float64Array, table.size);
    this.best = room.take("best", Float64Array, columns).fill(Number.NEGATIVE_INFINITY, 0, columns);
    if (table.kept !== null) this.stretches.push({ column: 0, arrived: this.arrivals.save() });
  }

  /** @returns columns in which all strokes have been placed */
  pass(): number[] {
    const { table, arrivals } = this;
    const ends: number[] = [];
    for (let c = 0; c < table.columns; c++) {
      if (table.isEnd(c)) {
        if (!Number.isNaN(table.offset[c]!)) ends.push(c);
        continue;
      }
      if (table.kept?.full === true) {
        this.stretches.push({ column: c, arrived: arrivals.save() });
        this.kept = c;
        table.kept.begin();
      }
      this.column(c, true);
    }
    return ends;
  }

  /** Sums once more over the stretch before the one whose rows are kept, and keeps its rows in their place. */
  recall(): void {
    const until = this.stretches.pop()!.column;
    const { column, arrived } = this.stretches.at(-1)!;
    this.table.kept!.begin();
    this.arrivals.restore(arrived);
    this.kept = column;
    for (let c = column; c < until; c++) this.column(c, false);
  }

  /** @param first whether the column is come to for the first time */
  private column(c: number, first: boolean): void {
    const { table, arrivals } = this;
    const { strokeAt, grid, lengths } = table;
    const reached = !Number.isNaN(table.offset[c]!);
    if (c > 0 && strokeAt[c] !== strokeAt[c - 1]) arrivals.forget();
    const opening = c <= grid.firstUntil && strokeAt[c] === 0;
    if (!reached && !opening && !arrivals.waiting) return;
    let floor = Number.NEGATIVE_INFINITY;
    for (let b = Math.max(0, c - lengths.at(-1)!); b <= c; b++) floor = Math.max(floor, this.best[b]!);
    const base = arrivals.baseOf(c, opening);
    arrivals.gather(c, opening, base);
    this.leave(c, base, opening, floor);
    if (first) this.end(c, base, opening);
    if (reached && table.start.pauses > 0) arrivals.hold(c);
  }

  /** Takes every step from a column that is open. */
  private leave(c: number, base: number, opening: boolean, floor: number): void {
    const { table } = this;
    const { columns, lengths, strokeAt } = table;
    const kinds = lengths.length;
    const beam = strokeAt[c]! < FIRST ? BEAM_FIRST : BEAM;
    for (let k = 0; k < kinds; k++) {
      const target = c + lengths[k]!;
      if (target >= columns || table.open[c * kinds + k] === 0) continue;
      if (opening && strokeAt[target] === 0) continue;
      this.step(c, k, base, floor, beam);
    }
  }

  private step(c: number, k: number, base: number, floor: number, beam: number): void {
    const { table, arrivals, products } = this;
    const { offset } = table;
    const { from, to } = arrivals;
    const mix = arrivals.mix[k]!;
    const target = c + table.lengths[k]!;
    const step = c * table.lengths.length + k;
    const factors = this.beat.weigh(c, k, from, to);
    const log = table.rhythm[step]!;
    let largest = 0;
    for (let p = from; p < to; p++) {
      const product = mix[p]! * factors[p]!;
      products[p] = product;
      if (product > largest) largest = product;
    }
    const score = base + log + Math.log(largest);
    if (!(largest > 0 && score > floor - beam)) return;
    if (Number.isNaN(offset[target]!)) offset[target] = score;
    const scale = Math.exp(base + log - offset[target]!);
    const least = Math.exp(Math.max(floor, score) - beam - offset[target]!);
    const row = arrivals.open(target, k);
    for (let p = from; p < to; p++) {
      const value = products[p]! * scale;
      row[p] = value > least ? value : 0;
    }
    let [low, high] = [from, to];
    while (low < high && row[low] === 0) low++;
    while (high > low && row[high - 1] === 0) high--;
    arrivals.close(target, k, low, high);
    if (low === high) return;
    this.best[target] = Math.max(this.best[target]!, score);
    table.kept?.add(step, row, low, high);
  }

  /** Notes what the steps from a column brought to the take's end. */
  private end(c: number, base: number, opening: boolean): void {
    const { table, arrivals } = this;
    const { lengths, columns } = table;
    if (c + lengths.at(-1)! < columns && !table.isEnd(c + lengths.at(-1)!)) return;
    let order: Int32Array | null = null;
    for (let k = 0; k < lengths.length; k++) {
      const column = c + lengths[k]!;
      if (column >= columns || !table.isEnd(column)) continue;
      const row = arrivals.reached(column, k);
      if (row === null) continue;
      order ??= arrivals.order(c, opening, base);
      const state = order.filter((q) => row[q]! > 0);
      table.ends.push({ column, k, state, value: Float64Array.from(state, (q) => row[q]!) });
    }
  }
}
