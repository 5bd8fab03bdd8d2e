/** Slow and plain: what the fast ways are held against. */

export function naiveSuffixes(symbols: readonly number[]): number[] {
  return symbols
    .map((_, i) => i)
    .sort((a, b) => {
      let k = 0;
      while (a + k < symbols.length && b + k < symbols.length && symbols[a + k] === symbols[b + k]) k++;
      if (a + k === symbols.length || b + k === symbols.length) return b - a;
      return symbols[a + k]! - symbols[b + k]!;
    });
}

export function naivePrefixes(symbols: readonly number[], sorted: readonly number[]): number[] {
  return sorted.map((b, i) => {
    if (i === 0) return 0;
    const a = sorted[i - 1]!;
    let k = 0;
    while (a + k < symbols.length && b + k < symbols.length && symbols[a + k] === symbols[b + k]) k++;
    return k;
  });
}

/** Every stretch that occurs twice and whose occurrences do not all go on, or all begin, alike: "length: starts". */
export function naiveRepeats(symbols: readonly number[]): string[] {
  const found: string[] = [];
  for (let length = 1; length < symbols.length; length++) {
    const places = new Map<string, number[]>();
    for (let start = 0; start + length <= symbols.length; start++) {
      const key = symbols.slice(start, start + length).join();
      places.set(key, [...(places.get(key) ?? []), start]);
    }
    for (const starts of places.values()) {
      if (starts.length < 2) continue;
      const differ = (offset: number) => {
        const around = starts.map((start) => symbols[start + offset]);
        return around.includes(undefined) || new Set(around).size > 1;
      };
      if (differ(-1) && differ(length)) found.push(`${length}: ${starts.join(" ")}`);
    }
  }
  return found.sort();
}

/** Fewest notes changed, added or left out between two rows, at the best transposition. */
export function naiveEdits(wanted: readonly number[], given: readonly number[]): number {
  let best = Math.max(wanted.length, given.length);
  for (const w of wanted) for (const g of given) best = Math.min(best, levenshtein(wanted, given, g - w));
  return best;
}

export function levenshtein(a: readonly number[], b: readonly number[], shift = 0): number {
  let row = b.map((_, j) => j).concat(b.length);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1]! + shift === b[j - 1]!;
      next.push(Math.min(row[j]! + 1, next[j - 1]! + 1, row[j - 1]! + (same ? 0 : 1)));
    }
    row = next;
  }
  return row[b.length]!;
}
