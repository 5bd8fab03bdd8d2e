type Column = Float64Array | Float32Array | Int32Array | Uint16Array | Uint8Array;

/** Sizes of rows begin here and double, so that rows of about one size take each other's place. */
const LEAST = 1 << 12;
/** Numbers from which on rows grow by a quarter: of an hour they are megabytes, half of which would be empty. */
const LARGE = 1 << 20;

/**
 * Rows of numbers that one lattice after another works in: a take is laid dozens of times, and memory that is new costs
 * more than the work in it. Of each name there is one row, and a lattice is done with before the next begins.
 */
export class Room {
  private readonly rows = new Map<string, Column>();

  /** A row at least so long, filled with zeros as far as that. */
  clear<T extends Column>(name: string, make: new (length: number) => T, length: number): T {
    const row = this.take(name, make, length);
    row.fill(0, 0, length);
    return row;
  }

  /** A row at least so long in which anything may stand. */
  take<T extends Column>(name: string, make: new (length: number) => T, length: number): T {
    const found = this.rows.get(name) as T | undefined;
    if (found !== undefined && found.length >= length) return found;
    let size = LEAST;
    while (size < length) size = size < LARGE ? 2 * size : size + (size >> 2);
    const row = new make(size);
    this.rows.set(name, row);
    return row;
  }
}
