/** A row of things that is wanted, and one that is given, of which a stretch is looked at. */
export interface Rows {
  readonly wanted: Int32Array;
  readonly given: ArrayLike<number>;
  /** First place of the given row that is looked at, and the one after the last. */
  begin: number;
  end: number;
  /** What a wanted thing is more than the given one that is the same as it. */
  shift: number;
}

/**
 * Fewest edits (one changed, added or left out each) that turn the rest of a wanted row into the beginning of what
 * follows in a given one; among equals, those that use as many as were wanted. Only the furthest point of
 * each diagonal of the usual table is kept (Ukkonen 1985), so a place where nothing fits costs next to nothing. One
 * aligner serves many places: a corpus has hundreds of thousands of them, and what they need is made once.
 */
export class Aligner {
  /** Of the last extension. */
  edits = 0;
  /** Given ones that the last extension used. */
  used = 0;
  readonly rows: Rows;
  #from = 0;
  #at = 0;
  #direction: 1 | -1 = 1;
  /** How many wanted and given ones there are from here on. */
  #wanted = 0;
  #given = 0;
  #reached: Int32Array;
  #next: Int32Array;

  constructor(rows: Rows, mostEdits: number) {
    this.rows = rows;
    this.#reached = new Int32Array(2 * mostEdits + 3);
    this.#next = new Int32Array(2 * mostEdits + 3);
  }

  /**
   * @param from first wanted one, `at` first given one
   * @param direction 1 forwards, -1 backwards
   * @returns false when more edits are needed than `most`
   */
  extend(from: number, at: number, direction: 1 | -1, most: number): boolean {
    const { wanted, begin, end } = this.rows;
    this.#from = from;
    this.#at = at;
    this.#direction = direction;
    this.#wanted = direction > 0 ? wanted.length - from : from + 1;
    this.#given = Math.max(0, direction > 0 ? end - at : at + 1 - begin);
    const alike = this.#slide(0, 0);
    if (alike === this.#wanted) return this.#ends(0, 0);
    if (most === 0) return false;
    if (most > 1) return this.#nearly(most, alike);
    // One edit, by far the most common question: it may as well be where the rows first differ.
    if (this.#goesOn(alike + 1, 0)) return this.#ends(1, 0);
    if (this.#goesOn(alike + 1, -1)) return this.#ends(1, -1);
    return this.#goesOn(alike, 1) && this.#ends(1, 1);
  }

  /** @param d given ones used more than are wanted */
  #ends(edits: number, d: number): true {
    this.edits = edits;
    this.used = this.#wanted + d;
    return true;
  }

  #nearly(most: number, alike: number): boolean {
    let [reached, next] = [this.#reached, this.#next];
    for (let d = 0; d < 2 * most + 3; d++) {
      reached[d] = NOWHERE;
      next[d] = NOWHERE;
    }
    // On diagonal d as many given ones more than wanted ones are used. Entry d + zero is how far it has come.
    const zero = most + 1;
    reached[zero] = alike;
    for (let edits = 1; edits <= most; edits++) {
      let best = NOWHERE;
      for (let d = -edits; d <= edits; d++) {
        const here = reached[d + zero]!;
        // Changed, added or left out.
        let i = here + d < this.#given ? here + 1 : here;
        const added = reached[d - 1 + zero]!;
        if (added > i && added + d <= this.#given) i = added;
        const without = reached[d + 1 + zero]! + 1;
        if (without > i) i = without;
        next[d + zero] = i < 0 || i + d < 0 ? NOWHERE : this.#slide(i, d);
        if (next[d + zero] === this.#wanted && Math.abs(d) < Math.abs(best)) best = d;
      }
      if (best !== NOWHERE) return this.#ends(edits, best);
      [reached, next] = [next, reached];
    }
    return false;
  }

  #goesOn(i: number, d: number): boolean {
    return i + d <= this.#given && this.#slide(i, d) === this.#wanted;
  }

  /** How many wanted ones are the same as the given ones on a diagonal, from the one after the first `i`. */
  #slide(i: number, d: number): number {
    const { wanted, given, shift } = this.rows;
    while (
      i < this.#wanted &&
      i + d < this.#given &&
      wanted[this.#from + this.#direction * i] === given[this.#at + this.#direction * (i + d)]! + shift
    ) {
      i++;
    }
    return i;
  }
}

/** Of a diagonal that is not reached: no sum with edits makes it a place. */
const NOWHERE = -(2 ** 30);
