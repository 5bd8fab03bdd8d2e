/** Readings of free playing that are followed, in columns. */

export class FreeStates {
  used = 0;
  /** The beat of the form that begins, its moment, the length (log) up to it, nats, and the reading before it; -1: none. */
  beat = new Int32Array(1 << 15);
  moment = new Int32Array(1 << 15);
  length = new Float64Array(1 << 15);
  score = new Float64Array(1 << 15);
  before = new Int32Array(1 << 15);

  /** Room for one more: its number. */
  add(): number {
    if (this.used === this.beat.length) {
      this.beat = longer(this.beat);
      this.moment = longer(this.moment);
      this.length = longer(this.length);
      this.score = longer(this.score);
      this.before = longer(this.before);
    }
    return this.used++;
  }
}

function longer<T extends Int32Array | Float64Array>(row: T): T {
  const next = new (row.constructor as new (length: number) => T)(2 * row.length);
  next.set(row);
  return next;
}
