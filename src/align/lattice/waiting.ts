import type { StepTable } from "./step-table.ts";

/** What waits in a gap between strokes, so that it can be put back. */
export interface Waited {
  readonly held: Float64Array;
  readonly states: Int32Array;
  readonly from: number;
  readonly to: number;
  readonly offset: number;
  readonly columns: number;
}

/** What reached the columns of a gap between strokes so far: it may go on from any later one of them. */
export class Waiting {
  /** By state, against `exp(offset)`. */
  private readonly held: Float64Array;
  offset = 0;
  /** States of which it is something, in the order in which they came up. */
  readonly states: Int32Array;
  many = 0;
  /** States outside of which it is nothing, and columns that it was gathered from. */
  from = 0;
  to = 0;
  columns = 0;
  private readonly size: number;

  constructor({ room, size }: StepTable) {
    this.size = size;
    this.held = room.clear("held", Float64Array, size);
    this.states = room.take("heldStates", Int32Array, size);
  }

  /** Adds to a row what goes on from here, each state by a factor. */
  goOn(factor: number, into: Float64Array): void {
    const { held, to } = this;
    for (let q = this.from; q < to; q++) into[q]! += factor * held[q]!;
  }

  /** Keeps what reached states `from` to `to` of a column from the states before them, by steps of three lengths. */
  hold(
    factor: number,
    rows: readonly [Float64Array, Float64Array, Float64Array],
    from: number,
    to: number,
  ): void {
    const { held, states } = this;
    const [r0, r1, r2] = rows;
    let many = this.many;
    for (let q = from; q < to; q++) {
      const before = held[q]!;
      const now = before + factor * r0[q - 1]! + factor * r1[q - 1]! + factor * r2[q - 1]!;
      if (before === 0 && now > 0) states[many++] = q;
      held[q] = now;
    }
    this.many = many;
  }

  /** The same for one state that is come to from two. */
  holdOne(factor: number, rows: readonly Float64Array[], q: number, left: number, other: number): void {
    const before = this.held[q]!;
    let now = before;
    for (const row of rows) {
      now += factor * row[left]!;
      now += factor * row[other]!;
    }
    if (before === 0 && now > 0) this.states[this.many++] = q;
    this.held[q] = now;
  }

  widen(from: number, to: number): void {
    const empty = this.from >= this.to;
    this.from = empty ? from : Math.min(this.from, from);
    this.to = empty ? to : Math.max(this.to, to);
  }

  forget(): void {
    this.held.fill(0, this.from, this.to);
    this.many = 0;
    this.from = 0;
    this.to = 0;
    this.columns = 0;
  }

  save(): Waited {
    const { from, to, offset, columns } = this;
    const [held, states] = [this.held.slice(0, this.size), this.states.slice(0, this.many)];
    return { held, states, from, to, offset, columns };
  }

  restore(saved: Waited): void {
    this.held.set(saved.held);
    this.states.set(saved.states);
    this.many = saved.states.length;
    this.from = saved.from;
    this.to = saved.to;
    this.offset = saved.offset;
    this.columns = saved.columns;
  }
}
