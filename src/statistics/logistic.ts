/**
 * The share that odds are, 0 to 1: what a logistic rule says.
 *
 * @param odds their natural logarithm
 */
export function logistic(odds: number): number {
  return 1 / (1 + Math.exp(-odds));
}
