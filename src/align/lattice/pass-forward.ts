import { Arrivals } from "./arrivals.ts";
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
  private readonly arrivals: Arrivals;
  private readonly beat: BeatFactors;
  private readonly products: Float64Array;
  /** Log of the best value at each column. */
  private readonly best: Float64Array;

  constructor(table: StepTable) {
    this.table = table;
    this.arrivals = new Arrivals(table);
    this.beat = new BeatFactors(table);
    this.products = table.room.take("products", Float64Array, table.size);
    this.best = new Float64Array(table.columns).fill(Number.NEGATIVE_INFINITY);
  }

  pass(): number[] {
    const { table, arrivals } = this;
    const { columns, lengths, grid, strokeAt } = table;
    const reach = lengths.at(-1)!;
    const ends: number[] = [];
    for (let c = 0; c < columns; c++) {
      const reached = !Number.isNaN(table.offset[c]!);
      if (strokeAt[c]! >= table.evidence.strokes.count) {
        if (reached) ends.push(c);
        continue;
      }
      if (c > 0 && strokeAt[c] !== strokeAt[c - 1]) arrivals.forget();
      const opening = c <= grid.firstUntil && strokeAt[c] === 0;
      if (!reached && !opening && !arrivals.waiting) continue;
      let floor = Number.NEGATIVE_INFINITY;
      for (let b = Math.max(0, c - reach); b <= c; b++) floor = Math.max(floor, this.best[b]!);
      const base = arrivals.baseOf(c, opening);
      this.leave(c, base, arrivals.gather(c, opening, base), opening, floor);
      if (reached && table.start.pauses > 0) arrivals.hold(c);
    }
    return ends;
  }

  /** Takes every step from a column that is open. */
  private leave(c: number, base: number, many: number, opening: boolean, floor: number): void {
    const { table } = this;
    const { columns, lengths, strokeAt } = table;
    const kinds = lengths.length;
    const beam = strokeAt[c]! < FIRST ? BEAM_FIRST : BEAM;
    for (let k = 0; k < kinds; k++) {
      const target = c + lengths[k]!;
      if (target >= columns || table.open[c * kinds + k] === 0) continue;
      if (opening && strokeAt[target] === 0) continue;
      this.step(c, k, base, many, floor, beam);
    }
  }

  private step(c: number, k: number, base: number, many: number, floor: number, beam: number): void {
    const { table, arrivals, products } = this;
    const { offset } = table;
    const { touched } = arrivals;
    const mix = arrivals.mix[k]!;
    const target = c + table.lengths[k]!;
    const factors = this.beat.weigh(c, k, touched, many);
    const log = table.rhythm[c * table.lengths.length + k]!;
    let largest = 0;
    for (let i = 0; i < many; i++) {
      const product = mix[touched[i]!]! * factors[i]!;
      products[i] = product;
      if (product > largest) largest = product;
    }
    const score = base + log + Math.log(largest);
    if (!(largest > 0 && score > floor - beam)) return;
    if (Number.isNaN(offset[target]!)) offset[target] = score;
    const scale = Math.exp(base + log - offset[target]!);
    const least = Math.exp(Math.max(floor, score) - beam - offset[target]!);
    const row = arrivals.open(target, k);
    let kept = 0;
    for (let i = 0; i < many; i++) {
      const value = products[i]! * scale;
      if (value <= least) continue;
      row[touched[i]!] = value;
      kept++;
    }
    if (kept === 0) return;
    this.best[target] = Math.max(this.best[target]!, score);
    if (table.keeps(target)) table.addRow(c, k, touched, factors, row, many);
  }
}
