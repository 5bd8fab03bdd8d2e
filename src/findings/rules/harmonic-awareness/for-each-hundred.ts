/** How many of some notes there are for each hundred of the line. */
export function forEachHundred(some: readonly unknown[], line: readonly unknown[]): number {
  return (100 * some.length) / Math.max(1, line.length);
}
