/**
 * Maximal repeats: stretches that return, and that cannot be made longer on either side without losing an
 * occurrence. Gusfield 1997, "Algorithms on strings, trees, and sequences", 7.12; found as intervals of the common
 * prefix array (Abouelhoda, Kurtz & Ohlebusch 2004).
 */

/** Receives one maximal repeat: its length, and its starts, which are `sorted[from]` to `sorted[to]` inclusive. */
export type RepeatVisitor = (length: number, from: number, to: number) => void;

/** Mark of an interval whose occurrences have different symbols before them. */
const MIXED = -2;
/** The start of the text has no symbol before it and so differs from all. */
const NONE = -1;

/**
 * Visits every maximal repeat of a text once, shorter ones after the longer ones that begin with them. Linear.
 *
 * @param text symbols
 * @param sorted its suffix array
 * @param shared its common prefixes
 * @param shortest repeats of fewer symbols are passed over
 */
export function visitRepeats(
  text: Int32Array,
  sorted: Int32Array,
  shared: Int32Array,
  shortest: number,
  visit: RepeatVisitor,
): void {
  const n = text.length;
  let depth = 0;
  let capacity = 1024;
  let lengths = new Int32Array(capacity);
  let starts = new Int32Array(capacity);
  let lefts = new Int32Array(capacity);
  const leftOf = (i: number) => (sorted[i]! > 0 ? text[sorted[i]! - 1]! : NONE);
  lefts[0] = n > 0 ? leftOf(0) : NONE;
  for (let i = 1; i <= n; i++) {
    const length = i < n ? shared[i]! : 0;
    let start = i - 1;
    let left = leftOf(i - 1);
    while (depth > 0 && lengths[depth]! > length) {
      const inner = joined(lefts[depth]!, left);
      if (inner === MIXED && lengths[depth]! >= shortest) visit(lengths[depth]!, starts[depth]!, i - 1);
      start = starts[depth]!;
      left = inner;
      depth--;
    }
    if (depth > 0 && lengths[depth] === length) {
      lefts[depth] = joined(lefts[depth]!, left);
    } else if (length > 0) {
      depth++;
      if (depth === capacity) {
        capacity *= 2;
        lengths = grown(lengths, capacity);
        starts = grown(starts, capacity);
        lefts = grown(lefts, capacity);
      }
      lengths[depth] = length;
      starts[depth] = start;
      lefts[depth] = left;
    }
  }
}

function joined(a: number, b: number): number {
  // Nothing before one of them: no symbol could be added on the left.
  return a === b && a !== NONE ? a : MIXED;
}

function grown(array: Int32Array, capacity: number): Int32Array<ArrayBuffer> {
  const larger = new Int32Array(capacity);
  larger.set(array);
  return larger;
}
