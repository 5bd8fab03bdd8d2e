import type { Laid } from "./lattice-types.ts";
import { eachReaching, type Masses } from "./pass-backward.ts";
import type { StepTable } from "./step-table.ts";

/** An entry that nothing came before. */
const OPENING = -1;
/** Strokes that a pause must bring into place to be believed in. */
const PAUSE_PRICE = 1;

/**
 * The path whose strokes lie where most readings have them: each step earns the shares of its strokes in its state,
 * and what readings agree on its moment and length.
 */
export function bestPath(table: StepTable, ends: readonly number[], masses: Masses): Laid | null {
  const { entries, size, columns, lengths, strokeAt, grid } = table;
  // What strokes say and what follows is not asked for any more: these rows are taken over. Earnings are asked for within
  // a step, at `e & turn`.
  const turn = table.turn() - 1;
  const earned = table.room.take("after", Float64Array, turn + 1);
  const came = new Int32Array(table.factor.buffer, 0, entries).fill(OPENING - 1);
  const reached = new Best(size);
  const held = new Best(size);
  for (let c = 0; c < columns; c++) {
    if (strokeAt[c]! >= table.evidence.strokes.count) break;
    if (c > 0 && strokeAt[c] !== strokeAt[c - 1]) held.clear();
    reached.clear();
    reached.gather(table, c, came, earned, turn);
    const opening = c <= grid.firstUntil && strokeAt[c] === 0;
    for (let k = 0; k < lengths.length; k++) {
      const target = c + lengths[k]!;
      const row = target < columns ? table.rowOf[target * lengths.length + k]! : -1;
      if (row < 0) continue;
      for (let e = table.entryOf[row]!; e < table.entryOf[row + 1]!; e++) {
        const p = table.state[e]!;
        const mass = masses.ofEntry[e]!;
        if (mass < 1e-6) continue;
        let how = opening ? OPENING : OPENING - 1;
        let before = opening ? 0 : -1;
        if (reached.value[p]! > before) {
          before = reached.value[p]!;
          how = reached.entry[p]!;
        }
        if (held.value[p]! - PAUSE_PRICE > before) {
          before = held.value[p]! - PAUSE_PRICE;
          how = held.entry[p]!;
        }
        if (how < OPENING) continue;
        let sum = before + 2 * mass;
        for (let s = strokeAt[c]!; s < strokeAt[target]!; s++) sum += masses.shares[s * size + p]!;
        earned[e & turn] = sum;
        came[e] = how;
      }
    }
    if (table.start.pauses > 0) reached.handTo(held);
  }
  let [last, most] = [-1, -1];
  for (const c of ends) {
    eachReaching(table, c, (e) => {
      if (came[e]! >= OPENING && earned[e & turn]! > most) [last, most] = [e, earned[e & turn]!];
    });
  }
  return last < 0 ? null : pathTo(table, last, came, masses);
}

/** The best that reached each state, and by which entry. */
class Best {
  readonly value: Float64Array;
  readonly entry: Int32Array;
  private readonly states: number[] = [];

  constructor(size: number) {
    this.value = new Float64Array(size).fill(Number.NEGATIVE_INFINITY);
    this.entry = new Int32Array(size);
  }

  clear(): void {
    for (const q of this.states) this.value[q] = Number.NEGATIVE_INFINITY;
    this.states.length = 0;
  }

  offer(q: number, value: number, entry: number): void {
    if (value <= this.value[q]!) return;
    if (this.value[q] === Number.NEGATIVE_INFINITY) this.states.push(q);
    this.value[q] = value;
    this.entry[q] = entry;
  }

  /** Takes what reaches a column. */
  gather(table: StepTable, c: number, came: Int32Array, earned: Float64Array, turn: number): void {
    const kinds = table.lengths.length;
    for (let b = 0; b < kinds; b++) {
      const row = table.rowOf[c * kinds + b]!;
      if (row < 0) continue;
      const to = table.entryOf[row + 1]!;
      for (let e = table.entryOf[row]!; e < to; e++) {
        if (came[e]! >= OPENING) this.offer(table.next[table.state[e]!]!, earned[e & turn]!, e);
      }
    }
  }

  handTo(other: Best): void {
    for (const q of this.states) other.offer(q, this.value[q]!, this.entry[q]!);
  }
}

/** Follows the best path back from its last entry. */
function pathTo(table: StepTable, last: number, came: Int32Array, masses: Masses): Laid {
  const { size, lead, lengths, grid, strokeAt, state } = table;
  const steps: { column: number; target: number; p: number }[] = [];
  for (let e = last; e !== OPENING; e = came[e]!) {
    const { column, k } = stepOf(table, e);
    steps.push({ column, target: column + lengths[k]!, p: state[e]! });
  }
  steps.reverse();
  const beats = Float64Array.from(
    [...steps.map(({ column }) => column), steps.at(-1)!.target],
    (c) => grid.times[c]!,
  );
  const sure = new Float64Array(table.evidence.strokes.count);
  for (const { column, target, p } of steps) {
    for (let s = strokeAt[column]!; s < strokeAt[target]!; s++) sure[s] = masses.shares[s * size + p]!;
  }
  return { evidence: masses.total, beats, firstBeat: steps[0]!.p - lead, sure };
}

/** Column and length of the step that an entry takes. */
function stepOf(table: StepTable, e: number): { column: number; k: number } {
  let [low, high] = [0, table.rows];
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (table.entryOf[middle]! <= e) low = middle;
    else high = middle;
  }
  return { column: table.columnOf[low]!, k: table.kindOf[low]! };
}
