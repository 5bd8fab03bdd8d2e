/**
 * One exact sum over all ways to lay a take: every moment at which a beat may begin x every length of that beat x every
 * beat of the form. A step is one beat; all strokes in it are judged together (a hidden semi-Markov model, Ferguson
 * 1980; Rabiner 1989). Forward and backward sums give each reading its share; the path is that which gathers most.
 */
import { beatShares } from "./beat-shares.ts";
import type { Evidence } from "./evidence.ts";

/** The moments and lengths that are tried. */
export interface LatticeGrid {
  /** Seconds of each column, rising. */
  readonly times: Float64Array;
  /** Lengths of a beat in columns. */
  readonly lengths: readonly number[];
  /** Log share of a length after another: `drift[before * lengths + after]`. */
  readonly drift: Float64Array;
  /** Columns by which a beat's strokes may come before it, as seconds before each column. */
  readonly early: Float64Array;
  /** Last column in which the first beat may begin. */
  readonly firstUntil: number;
}

export interface LatticeStart {
  /** Log shares of the form's beats in the first step, and in the last. */
  readonly begin: Float64Array;
  readonly end: Float64Array;
  /** Log share of readings whose beat `p` begins at a column, for the first beat; null where nothing is known. */
  readonly known: ((column: number, p: number) => number) | null;
  readonly pins: readonly LatticePin[];
}

/** A moment whose place is known: `beat` in beats from the first of the first chorus, with a share of one. */
export interface LatticePin {
  readonly seconds: number;
  readonly beat: number;
}

export interface Laid {
  /** Log evidence of the take under this grid. */
  readonly evidence: number;
  /** Seconds at which each beat begins, one more than beats; beat of the form of the first. */
  readonly beats: Float64Array;
  readonly firstBeat: number;
  /** Share of all readings that have the stroke in the beat of the form which the path gives it. */
  readonly sure: Float64Array;
  /** Share for each stroke and each beat of the form: `shares[stroke * form + p]`. */
  readonly shares: Float32Array;
}

/** Nats below the best row of the last beat at which rows are no longer followed. */
const BEAM = 12;

/** Beats by which a pin may lie beside its place: a hand that pins is no more exact. */
const PINNED = 0.1;

/** Log evidence of the strokes by their rhythm alone. */
export function rhythmEvidence(evidence: Evidence, grid: LatticeGrid): number {
  const strokeAt = strokesAt(evidence, grid);
  return beatShares(grid, rhythmOf(evidence, grid, strokeAt), strokeAt, evidence.strokes.count, CLOSED)
    .evidence;
}

/** First stroke that belongs to a beat beginning at each column or later. */
function strokesAt(evidence: Evidence, grid: LatticeGrid): Int32Array {
  const { time, count } = evidence.strokes;
  const strokeAt = new Int32Array(grid.times.length);
  let s = 0;
  for (let c = 0; c < strokeAt.length; c++) {
    while (s < count && time[s]! < grid.times[c]! - grid.early[c]!) s++;
    strokeAt[c] = s;
  }
  return strokeAt;
}

/** Log density of the rhythm of each step; -Infinity where a step is impossible. */
function rhythmOf(evidence: Evidence, grid: LatticeGrid, strokeAt: Int32Array): Float64Array {
  const { times, lengths } = grid;
  const kinds = lengths.length;
  const rhythm = new Float64Array(times.length * kinds).fill(Number.NEGATIVE_INFINITY);
  for (let c = 0; c < times.length; c++) {
    if (strokeAt[c]! >= evidence.strokes.count) break;
    for (let k = 0; k < kinds; k++) {
      const end = c + lengths[k]!;
      if (end >= times.length) break;
      rhythm[c * kinds + k] = evidence.rhythm(
        strokeAt[c]!,
        strokeAt[end]!,
        times[c]!,
        times[end]! - times[c]!,
      );
    }
  }
  return rhythm;
}

/** Steps with a smaller share by the rhythm alone, this much tempered, are not weighed against the chart. */
const CLOSED = { least: 0.01, power: 0.7 };

export function layOnLattice(evidence: Evidence, grid: LatticeGrid, start: LatticeStart): Laid | null {
  return new Walk(evidence, grid, start).lay();
}

class Walk {
  private readonly size: number;
  private readonly columns: number;
  private readonly lengths: readonly number[];
  /** First stroke that belongs to a beat beginning at the column or later. */
  private readonly strokeAt: Int32Array;
  /** Row of each (column, length) in the pool, -1 for none. */
  private readonly rowOf: Int32Array;
  private pool: Float32Array;
  private rows = 0;
  private scale: Float64Array;
  private readonly evidence: Evidence;
  private readonly grid: LatticeGrid;
  private readonly start: LatticeStart;
  private readonly drift: Float64Array;
  private readonly step: Float32Array;
  /** Log density of the rhythm of each step, and whether the step is followed. */
  private readonly rhythm: Float64Array;
  private readonly open: Uint8Array;

  constructor(evidence: Evidence, grid: LatticeGrid, start: LatticeStart) {
    this.evidence = evidence;
    this.grid = grid;
    this.start = start;
    this.size = evidence.form.count;
    this.columns = grid.times.length;
    this.lengths = grid.lengths;
    this.rowOf = new Int32Array(this.columns * this.lengths.length).fill(-1);
    this.pool = new Float32Array(this.size * 1024);
    this.scale = new Float64Array(1024);
    this.drift = grid.drift.map(Math.exp);
    this.step = new Float32Array(this.size);
    this.strokeAt = strokesAt(evidence, grid);
    this.rhythm = rhythmOf(evidence, grid, this.strokeAt);
    this.open =
      this.lengths.length === 1
        ? new Uint8Array(this.columns).fill(1)
        : beatShares(grid, this.rhythm, this.strokeAt, evidence.strokes.count, CLOSED).open;
  }

  private newRow(column: number, k: number): number {
    if ((this.rows + 1) * this.size > this.pool.length) {
      const larger = new Float32Array(this.pool.length * 2);
      larger.set(this.pool);
      this.pool = larger;
    }
    if (this.rows + 1 > this.scale.length) {
      const larger = new Float64Array(this.scale.length * 2);
      larger.set(this.scale);
      this.scale = larger;
    }
    this.rowOf[column * this.lengths.length + k] = this.rows;
    return this.rows++;
  }

  /** Fills `this.step` with the factors of the strokes in a beat; returns their log density of time. */
  private emission(column: number, k: number): number {
    const end = column + this.lengths[k]!;
    const [from, to] = [this.strokeAt[column]!, this.strokeAt[end]!];
    const at = this.grid.times[column]!;
    const seconds = this.grid.times[end]! - at;
    const { evidence, size, step } = this;
    step.fill(1);
    for (let s = from; s < to; s++) {
      const row = evidence.row(s, (evidence.strokes.time[s]! - at) / seconds);
      for (let p = 0; p < size; p++) step[p]! *= row[p]!;
    }
    for (const pin of this.start.pins) {
      if (pin.seconds < at || pin.seconds >= at + seconds) continue;
      const place = (pin.seconds - at) / seconds;
      for (let p = 0; p < size; p++) {
        const away = ((((pin.beat - place - p + size / 2) % size) + size) % size) - size / 2;
        step[p]! *= Math.exp(-Math.min(30, 0.5 * (away / PINNED) ** 2));
      }
    }
    return this.rhythm[column * this.lengths.length + k]!;
  }

  lay(): Laid | null {
    const { size, columns, lengths, grid, evidence } = this;
    const kinds = lengths.length;
    const begin = this.start.begin.map(Math.exp);
    const end = this.start.end.map(Math.exp);
    const recent = new Float64Array(columns).fill(Number.NEGATIVE_INFINITY);
    const reach = lengths[kinds - 1]!;
    const count = evidence.strokes.count;
    const ends: number[] = [];
    const mix = new Float32Array(size);
    const rowMass: number[] = [];
    for (let c = 0; c < columns; c++) {
      if (this.strokeAt[c]! >= count) {
        for (let k = 0; k < kinds; k++) {
          const row = this.rowOf[c * kinds + k]!;
          if (row >= 0) ends.push(row);
        }
        continue;
      }
      let floor = Number.NEGATIVE_INFINITY;
      for (let b = Math.max(0, c - reach); b <= c; b++) floor = Math.max(floor, recent[b]!);
      floor -= BEAM;
      const opening = c <= grid.firstUntil && this.strokeAt[c] === 0;
      for (let k = 0; k < kinds; k++) {
        const target = c + lengths[k]!;
        if (target >= columns || this.open[c * kinds + k] === 0) continue;
        let top = opening ? 0 : Number.NEGATIVE_INFINITY;
        for (let b = 0; b < kinds; b++) {
          const row = this.rowOf[c * kinds + b]!;
          if (row >= 0 && this.drift[b * kinds + k]! > 0) top = Math.max(top, this.scale[row]!);
        }
        if (opening && this.strokeAt[target] === 0) continue;
        if (top < floor) continue;
        if (opening) {
          mix.set(begin);
          if (this.start.known !== null)
            for (let p = 0; p < size; p++) mix[p]! *= Math.exp(this.start.known(c, p));
        } else mix.fill(0);
        if (opening && top > 0) {
          const factor = Math.exp(-top);
          for (let p = 0; p < size; p++) mix[p]! *= factor;
        }
        for (let b = 0; b < kinds; b++) {
          const row = this.rowOf[c * kinds + b]!;
          if (row < 0) continue;
          const factor = this.drift[b * kinds + k]! * Math.exp(this.scale[row]! - top);
          if (factor < 1e-7) continue;
          const from = row * size;
          const { pool } = this;
          for (let p = 0; p < size; p++) mix[p]! += factor * pool[from + p]!;
        }
        const log = this.emission(c, k);
        const row = this.newRow(target, k);
        const to = row * size;
        const { pool, step } = this;
        let largest = 0;
        for (let p = 0; p < size; p++) {
          const value = mix[p]! * step[p]!;
          pool[to + (p + 1 === size ? 0 : p + 1)] = value;
          if (value > largest) largest = value;
        }
        if (!(largest > 0)) {
          this.rows--;
          this.rowOf[target * kinds + k] = -1;
          continue;
        }
        const inverse = 1 / largest;
        for (let p = 0; p < size; p++) pool[to + p]! *= inverse;
        this.scale[row] = top + log + Math.log(largest);
        rowMass[row] = 0;
        recent[target] = Math.max(recent[target]!, this.scale[row]!);
      }
    }
    if (ends.length === 0) return null;
    return this.readBack(ends, end);
  }

  private readBack(ends: readonly number[], end: Float64Array): Laid | null {
    const { size, columns, lengths, pool, evidence } = this;
    const kinds = lengths.length;
    const back = new Float32Array(this.rows * size);
    const backScale = new Float64Array(this.rows).fill(Number.NEGATIVE_INFINITY);
    let top = Number.NEGATIVE_INFINITY;
    for (const row of ends) top = Math.max(top, this.scale[row]!);
    let sum = 0;
    for (const row of ends) {
      const factor = Math.exp(this.scale[row]! - top);
      for (let p = 0; p < size; p++) {
        const last = end[p === 0 ? size - 1 : p - 1]!;
        back[row * size + p] = last;
        sum += factor * pool[row * size + p]! * last;
      }
      backScale[row] = 0;
    }
    if (!(sum > 0)) return null;
    const total = top + Math.log(sum);
    const ended = new Uint8Array(this.rows);
    for (const row of ends) ended[row] = 1;

    const count = evidence.strokes.count;
    const shares = new Float32Array(count * size);
    const gamma = new Float32Array(this.rows * size);
    const steps = Array.from({ length: kinds }, () => new Float32Array(size));
    const stepScale = new Float64Array(kinds);
    for (let c = columns - 1; c >= 0; c--) {
      let any = false;
      for (let k = 0; k < kinds; k++) {
        stepScale[k] = Number.NEGATIVE_INFINITY;
        const target = c + lengths[k]!;
        if (target >= columns) continue;
        const row = this.rowOf[target * kinds + k]!;
        if (row < 0 || backScale[row] === Number.NEGATIVE_INFINITY) continue;
        // A row belongs to this column's step alone: its mass is the share of all readings that take the step.
        const weight = Math.exp(this.scale[row]! + backScale[row]! - total);
        const [from, to] = [this.strokeAt[c]!, this.strokeAt[target]!];
        let mass = 0;
        for (let p = 0; p < size; p++) {
          const q = p + 1 === size ? 0 : p + 1;
          const value = weight * pool[row * size + q]! * back[row * size + q]!;
          gamma[row * size + p] = value;
          mass += value;
        }
        if (mass > 1e-9) {
          for (let s = from; s < to; s++) {
            for (let p = 0; p < size; p++) shares[s * size + p]! += gamma[row * size + p]!;
          }
        }
        const log = this.emission(c, k);
        const into = steps[k]!;
        let largest = 0;
        for (let p = 0; p < size; p++) {
          const value = this.step[p]! * back[row * size + (p + 1 === size ? 0 : p + 1)]!;
          into[p] = value;
          if (value > largest) largest = value;
        }
        if (!(largest > 0)) continue;
        for (let p = 0; p < size; p++) into[p]! /= largest;
        stepScale[k] = log + backScale[row]! + Math.log(largest);
        any = true;
      }
      if (!any) continue;
      for (let b = 0; b < kinds; b++) {
        const row = this.rowOf[c * kinds + b]!;
        if (row < 0 || ended[row] === 1) continue;
        let high = Number.NEGATIVE_INFINITY;
        for (let k = 0; k < kinds; k++) {
          if (this.drift[b * kinds + k]! > 1e-7) high = Math.max(high, stepScale[k]!);
        }
        if (high === Number.NEGATIVE_INFINITY) continue;
        backScale[row] = high;
        for (let k = 0; k < kinds; k++) {
          const factor = this.drift[b * kinds + k]! * Math.exp(stepScale[k]! - high);
          if (!(factor > 1e-7)) continue;
          const into = steps[k]!;
          for (let p = 0; p < size; p++) back[row * size + p]! += factor * into[p]!;
        }
        let largest = 0;
        for (let p = 0; p < size; p++) largest = Math.max(largest, back[row * size + p]!);
        if (!(largest > 0)) {
          backScale[row] = Number.NEGATIVE_INFINITY;
          continue;
        }
        for (let p = 0; p < size; p++) back[row * size + p]! /= largest;
        backScale[row]! += Math.log(largest);
      }
    }
    return this.gather(ends, gamma, shares, total);
  }

  /**
   * The path whose strokes lie where most readings have them: each step earns the shares of its strokes at its beat of
   * the form, and what readings agree on its moment and length.
   */
  private gather(
    ends: readonly number[],
    gamma: Float32Array,
    shares: Float32Array,
    total: number,
  ): Laid | null {
    const { size, columns, lengths } = this;
    const kinds = lengths.length;
    const best = new Float32Array(this.rows * size).fill(-1);
    const from = new Int32Array(this.rows * size).fill(-1);
    for (let c = 0; c < columns; c++) {
      for (let k = 0; k < kinds; k++) {
        const target = c + lengths[k]!;
        if (target >= columns) continue;
        const row = this.rowOf[target * kinds + k]!;
        if (row < 0) continue;
        const [first, last] = [this.strokeAt[c]!, this.strokeAt[target]!];
        const opening = first === 0 && c <= this.grid.firstUntil;
        for (let p = 0; p < size; p++) {
          const mass = gamma[row * size + p]!;
          if (mass < 1e-6) continue;
          let before = opening ? 0 : -1;
          let came = -1;
          for (let b = 0; b < kinds; b++) {
            const source = this.rowOf[c * kinds + b]!;
            if (source < 0 || this.drift[b * kinds + k]! < 1e-7) continue;
            const earned = best[source * size + p]!;
            if (earned > before) {
              before = earned;
              came = source * size + p;
            }
          }
          if (before < 0) continue;
          let earned = before + 2 * mass;
          for (let s = first; s < last; s++) earned += shares[s * size + p]!;
          const q = p + 1 === size ? 0 : p + 1;
          best[row * size + q] = earned;
          from[row * size + q] = came;
        }
      }
    }
    let at = -1;
    let most = -1;
    for (const row of ends) {
      for (let p = 0; p < size; p++) {
        if (best[row * size + p]! > most) {
          most = best[row * size + p]!;
          at = row * size + p;
        }
      }
    }
    if (at < 0) return null;
    return this.pathTo(at, from, shares, total);
  }

  private pathTo(last: number, from: Int32Array, shares: Float32Array, total: number): Laid {
    const { size, grid, lengths } = this;
    const kinds = lengths.length;
    const columnOf = new Int32Array(this.rows);
    const kindOf = new Uint8Array(this.rows);
    this.rowOf.forEach((row, at) => {
      if (row < 0) return;
      columnOf[row] = Math.floor(at / kinds);
      kindOf[row] = at % kinds;
    });
    const states: number[] = [];
    for (let at = last; at >= 0; at = from[at]!) states.push(at);
    states.reverse();
    const opening = Math.floor(states[0]! / size);
    const beats = Float64Array.from([
      grid.times[columnOf[opening]! - lengths[kindOf[opening]!]!]!,
      ...states.map((state) => grid.times[columnOf[Math.floor(state / size)]!]!),
    ]);
    const sure = new Float64Array(this.evidence.strokes.count);
    let column = columnOf[opening]! - lengths[kindOf[opening]!]!;
    for (const state of states) {
      const row = Math.floor(state / size);
      const p = ((state % size) + size - 1) % size;
      for (let s = this.strokeAt[column]!; s < this.strokeAt[columnOf[row]!]!; s++)
        sure[s] = shares[s * size + p]!;
      column = columnOf[row]!;
    }
    return { evidence: total, beats, firstBeat: ((states[0]! % size) + size - 1) % size, sure, shares };
  }
}
