import type { MeasuredLine } from "../../measured-line.ts";

/** Notes a bar in each chorus of which bars were played; a pickup belongs to the chorus that it leads into. */
export function fullness({ solo, barsPlayed }: MeasuredLine): number[] {
  const counts = barsPlayed.map(() => 0);
  for (const { chorus } of solo) if (counts[chorus - 1] !== undefined) counts[chorus - 1]!++;
  return counts.flatMap((count, i) => (barsPlayed[i]! > 0 ? [count / barsPlayed[i]!] : []));
}

/** How many times fuller the last chorus is than the first; null where that means nothing. */
export function growth(line: MeasuredLine): number | null {
  const each = fullness(line);
  const [first, last] = [each[0], each[each.length - 1]];
  return first === undefined || last === undefined || first === 0 || each.length < 2 ? null : last / first;
}
