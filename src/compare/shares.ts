/** Counts of labels turned into shares that add up to 1; empty when there is nothing to count. */
export type Shares = Readonly<Record<string, number>>;

/** Share of each label; labels that are null are left out of the count. Keys stand in order of first appearance. */
export function sharesOf(labels: Iterable<string | null>): Record<string, number> {
  const counts = new Map<string, number>();
  let total = 0;
  for (const label of labels) {
    if (label === null) continue;
    counts.set(label, (counts.get(label) ?? 0) + 1);
    total++;
  }
  return Object.fromEntries([...counts].map(([label, count]) => [label, count / total]));
}
