/** Logarithm of the sum of what these are logarithms of; the greatest is taken out first, so that nothing overflows. */
export function logSum(logs: Float64Array | readonly number[]): number {
  const top = Math.max(...logs);
  let sum = 0;
  for (const log of logs) sum += Math.exp(log - top);
  return top + Math.log(sum);
}
