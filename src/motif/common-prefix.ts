/**
 * Lengths of the common beginnings of neighbours in a suffix array: `result[i]` symbols are shared by suffixes
 * `sorted[i - 1]` and `sorted[i]`; `result[0]` is 0. Linear; through the permuted array of Kärkkäinen, Manzini &
 * Puglisi 2009, "Permuted longest-common-prefix array", which walks the text in order and so is kind to the cache.
 */
export function commonPrefixes(text: Int32Array, sorted: Int32Array): Int32Array {
  const n = text.length;
  const shared = new Int32Array(n);
  if (n === 0) return shared;
  const byPlace = new Int32Array(n);
  byPlace[sorted[0]!] = -1;
  for (let i = 1; i < n; i++) byPlace[sorted[i]!] = sorted[i - 1]!;
  let length = 0;
  for (let i = 0; i < n; i++) {
    const j = byPlace[i]!;
    if (j < 0) length = 0;
    else while (i + length < n && j + length < n && text[i + length] === text[j + length]) length++;
    byPlace[i] = length;
    if (length > 0) length--;
  }
  for (let i = 0; i < n; i++) shared[i] = byPlace[sorted[i]!]!;
  return shared;
}
