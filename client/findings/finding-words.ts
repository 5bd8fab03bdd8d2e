/** How findings are written on a page: where to hear them, and what is not said. */
import type { Finding } from "../../src/account.ts";
import { count } from "../../src/words/index.ts";

export const FINDING_KINDS: readonly {
  readonly kind: Finding["kind"];
  readonly heading: string;
  readonly none: string;
}[] = [
  { kind: "works", heading: "What works", none: "Nothing stands out yet; a longer solo tells more." },
  { kind: "practise", heading: "To practise", none: "Nothing that the numbers would ask for." },
  { kind: "notice", heading: "To notice", none: "Nothing more." },
];

export const isGoal = (finding: Pick<Finding, "id">): boolean => finding.id.startsWith("goal-");

/** Most runs of bars that are named; who wants all of them hears them. */
const MOST_RUNS = 6;

/** "Hear it in chorus 1, bars 2–5, 9": in the order of the chart; empty for what is about silence or the whole take. */
export function barWords(finding: Pick<Finding, "bars">): string {
  const byChorus = new Map<number, Set<number>>();
  for (const { chorus, bar } of finding.bars)
    byChorus.set(chorus, (byChorus.get(chorus) ?? new Set<number>()).add(bar));
  const parts = [...byChorus]
    .sort(([a], [b]) => a - b)
    .map(([chorus, all]) => {
      const bars = [...all].filter((bar) => bar > 0).sort((a, b) => a - b);
      const pickup = bars.length < all.size ? "the pickup" : "";
      const runs = barRuns(bars);
      const left = runs.slice(MOST_RUNS).length;
      const named = runs.slice(0, MOST_RUNS).join(", ") + (left > 0 ? ` and ${count(left, "other")}` : "");
      return [
        `chorus ${chorus}`,
        pickup,
        bars.length === 0 ? "" : `${bars.length === 1 ? "bar" : "bars"} ${named}`,
      ]
        .filter(Boolean)
        .join(", ");
    });
  return parts.length === 0 ? "" : `Hear it in ${parts.join("; ")}`;
}

/**
 * Neighbouring bars as one: "1–4", "7".
 *
 * @param bars rising
 */
export function barRuns(bars: readonly number[]): string[] {
  const parts: [number, number][] = [];
  for (const bar of bars) {
    const last = parts.at(-1);
    if (last && last[1] === bar - 1) last[1] = bar;
    else parts.push([bar, bar]);
  }
  return parts.map(([from, to]) => (from === to ? `${from}` : `${from}–${to}`));
}

/**
 * A sentence as it is printed: chord and note names with their accidentals ("on Bb7" becomes "on B♭7", "About" stays),
 * and no line that ends between a number and its per cent.
 */
export function printedText(text: string): string {
  return text
    .replace(
      /(?<![\p{L}\d])([A-G])(b|#)(?=m|maj|min|dim|aug|sus|add|ø|°|Δ|\d|\(|\/|[^\p{L}]|$)/gu,
      (_, letter: string, sign: string) => letter + (sign === "b" ? "♭" : "♯"),
    )
    .replace(/(?<=\d) (?=%)/g, "\u00a0");
}
