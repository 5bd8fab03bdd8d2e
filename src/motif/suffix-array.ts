/**
 * Suffix arrays in linear time by induced sorting. Nong, Zhang & Chan 2009, "Linear suffix array construction by
 * almost pure induced-sorting". Working storage is a few integers a symbol.
 */

/**
 * Starts of all suffixes of a text in their order; a suffix that is the beginning of another one comes first.
 *
 * @param text symbols 0 to `alphabet` - 1
 * @example suffixArray(Int32Array.of(1, 0, 2, 0, 2, 0), 3) // of "banana": 5 3 1 0 4 2
 */
export function suffixArray(text: Int32Array, alphabet: number): Int32Array {
  const sorted = new Int32Array(text.length);
  if (text.length > 0) sortSuffixes(text, text.length, alphabet, sorted);
  return sorted;
}

function sortSuffixes(text: Int32Array, n: number, alphabet: number, sorted: Int32Array): void {
  if (n === 1) {
    sorted[0] = 0;
    return;
  }
  // A suffix is "rising" when it is smaller than the one that starts a symbol later.
  const rising = new Uint8Array(n);
  for (let i = n - 2; i >= 0; i--) {
    const [a, b] = [text[i]!, text[i + 1]!];
    rising[i] = a < b || (a === b && rising[i + 1] === 1) ? 1 : 0;
  }
  const sizes = new Int32Array(alphabet);
  for (let i = 0; i < n; i++) sizes[text[i]!]!++;
  let valleys = 0;
  for (let i = 1; i < n; i++) if (rising[i] === 1 && rising[i - 1] === 0) valleys++;
  const inTextOrder = new Int32Array(valleys);
  for (let i = 1, v = 0; i < n; i++) if (rising[i] === 1 && rising[i - 1] === 0) inTextOrder[v++] = i;

  const edge = new Int32Array(alphabet);
  induce(text, n, rising, sizes, edge, inTextOrder, sorted);
  if (valleys > 1) {
    const names = nameValleys(text, n, rising, inTextOrder, sorted);
    const order = new Int32Array(valleys);
    if (names.count < valleys) sortSuffixes(names.text, valleys, names.count, order);
    else for (let v = 0; v < valleys; v++) order[names.text[v]!] = v;
    for (let v = 0; v < valleys; v++) order[v] = inTextOrder[order[v]!]!;
    induce(text, n, rising, sizes, edge, order, sorted);
  }
}

/** Sorts all suffixes from the valleys in the order given; right when that order is right, else a step towards it. */
function induce(
  text: Int32Array,
  n: number,
  rising: Uint8Array,
  sizes: Int32Array,
  edge: Int32Array,
  valleys: Int32Array,
  sorted: Int32Array,
): void {
  sorted.fill(-1, 0, n);
  toEnds(sizes, edge);
  for (let v = valleys.length - 1; v >= 0; v--) {
    const at = valleys[v]!;
    sorted[--edge[text[at]!]!] = at;
  }
  toStarts(sizes, edge);
  sorted[edge[text[n - 1]!]!++] = n - 1;
  for (let i = 0; i < n; i++) {
    const before = sorted[i]! - 1;
    if (before >= 0 && rising[before] === 0) sorted[edge[text[before]!]!++] = before;
  }
  toEnds(sizes, edge);
  for (let i = n - 1; i >= 0; i--) {
    const before = sorted[i]! - 1;
    if (before >= 0 && rising[before] === 1) sorted[--edge[text[before]!]!] = before;
  }
}

/** Numbers the stretches between valleys by their order, equal ones alike; the numbers in text order. */
function nameValleys(
  text: Int32Array,
  n: number,
  rising: Uint8Array,
  inTextOrder: Int32Array,
  sorted: Int32Array,
): { text: Int32Array; count: number } {
  const valleys = inTextOrder.length;
  // Two valleys are never neighbours, so half the places are enough to find a valley's number.
  const stretchEnd = new Int32Array((n >> 1) + 1);
  const name = new Int32Array((n >> 1) + 1);
  for (let v = 0; v < valleys; v++) stretchEnd[inTextOrder[v]! >> 1] = inTextOrder[v + 1] ?? n;
  let count = 0;
  let before = -1;
  for (let i = 0; i < n; i++) {
    const at = sorted[i]!;
    if (at < 1 || rising[at] === 0 || rising[at - 1] === 1) continue;
    if (before >= 0 && !sameStretch(text, n, before, stretchEnd[before >> 1]!, at, stretchEnd[at >> 1]!)) {
      count++;
    }
    name[at >> 1] = count;
    before = at;
  }
  const named = new Int32Array(valleys);
  for (let v = 0; v < valleys; v++) named[v] = name[inTextOrder[v]! >> 1]!;
  return { text: named, count: count + 1 };
}

function sameStretch(text: Int32Array, n: number, a: number, aEnd: number, b: number, bEnd: number): boolean {
  if (aEnd - a !== bEnd - b || aEnd === n || bEnd === n) return false;
  for (let k = 0; k <= aEnd - a; k++) if (text[a + k] !== text[b + k]) return false;
  return true;
}

function toStarts(sizes: Int32Array, edge: Int32Array): void {
  let sum = 0;
  for (let s = 0; s < sizes.length; s++) {
    edge[s] = sum;
    sum += sizes[s]!;
  }
}

function toEnds(sizes: Int32Array, edge: Int32Array): void {
  let sum = 0;
  for (let s = 0; s < sizes.length; s++) {
    sum += sizes[s]!;
    edge[s] = sum;
  }
}
