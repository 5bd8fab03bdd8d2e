/**
 * SIA: all pairs of points, grouped by the vector between them, are the maximal translatable patterns.
 * Meredith, Lemström & Wiggins 2002, "Algorithms for discovering repeated patterns in multidimensional
 * representations of polyphonic music". Quadratic; what discovery is held against.
 */
export type Point = readonly [number, number];

export function maximalTranslatablePatterns(points: readonly Point[]): Map<string, Point[]> {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const patterns = new Map<string, Point[]>();
  for (let i = 0; i < sorted.length; i++) {
    for (let j = i + 1; j < sorted.length; j++) {
      const vector = `${sorted[j]![0] - sorted[i]![0]},${sorted[j]![1] - sorted[i]![1]}`;
      patterns.set(vector, [...(patterns.get(vector) ?? []), sorted[i]!]);
    }
  }
  return patterns;
}
