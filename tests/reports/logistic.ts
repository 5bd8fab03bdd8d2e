/** Logistic regression by Newton's steps, for reports that learn the weights of `src`. */

/**
 * @param rows features of each example, without the constant
 * @param weight how much an example counts
 * @returns the constant, then a weight a feature; a ridge holds the latter
 */
export function learnLogistic(
  rows: readonly (readonly number[])[],
  truths: readonly boolean[],
  { ridge = 1, weight = () => 1 }: { ridge?: number; weight?: (i: number) => number } = {},
): number[] {
  const size = (rows[0]?.length ?? 0) + 1;
  let weights = new Array<number>(size).fill(0);
  for (let step = 0; step < 30; step++) {
    const gradient = weights.map((w, k) => (k === 0 ? 0 : -ridge * w));
    const hessian = weights.map((_, a) => weights.map((_, b) => (a === b && a > 0 ? ridge : 0)));
    rows.forEach((features, i) => {
      const row = [1, ...features];
      const p = 1 / (1 + Math.exp(-row.reduce((sum, x, k) => sum + x * weights[k]!, 0)));
      const count = weight(i);
      for (let a = 0; a < size; a++) {
        gradient[a]! += count * ((truths[i] ? 1 : 0) - p) * row[a]!;
        for (let b = 0; b < size; b++) hessian[a]![b]! += count * p * (1 - p) * row[a]! * row[b]!;
      }
    });
    const change = solve(hessian, gradient);
    weights = weights.map((w, k) => w + change[k]!);
  }
  return weights.map((w) => Math.round(w * 1000) / 1000);
}

/** Gauss's elimination with pivots. */
function solve(matrix: readonly (readonly number[])[], right: readonly number[]): number[] {
  const m = matrix.map((row, i) => [...row, right[i]!]);
  const n = right.length;
  for (let c = 0; c < n; c++) {
    let pivot = c;
    for (let r = c; r < n; r++) if (Math.abs(m[r]![c]!) > Math.abs(m[pivot]![c]!)) pivot = r;
    [m[c], m[pivot]] = [m[pivot]!, m[c]!];
    for (let r = 0; r < n; r++) {
      if (r === c) continue;
      const factor = m[r]![c]! / m[c]![c]!;
      for (let k = c; k <= n; k++) m[r]![k]! -= factor * m[c]![k]!;
    }
  }
  return m.map((row, i) => row[n]! / row[i]!);
}
