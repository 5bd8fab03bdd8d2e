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

/** "Hear it in chorus 1, bars 2, 5": empty for what is about silence or the whole take. */
export function barWords(finding: Pick<Finding, "bars">): string {
  const byChorus = new Map<number, number[]>();
  for (const { chorus, bar } of finding.bars) byChorus.set(chorus, [...(byChorus.get(chorus) ?? []), bar]);
  const parts = [...byChorus].map(([chorus, all]) => {
    const bars = all.filter((bar) => bar > 0);
    const pickup = bars.length < all.length ? "the pickup" : "";
    const few = bars.slice(0, 8).join(", ");
    const more = bars.length > 8 ? ` and ${count(bars.length - 8, "other")}` : "";
    const named = bars.length === 0 ? "" : `${bars.length === 1 ? "bar" : "bars"} ${few}${more}`;
    return [`chorus ${chorus}`, pickup, named].filter(Boolean).join(", ");
  });
  return parts.length === 0 ? "" : `Hear it in ${parts.join("; ")}`;
}

/** Chord and note names inside a sentence with the printed accidentals: "on Bb7" becomes "on B♭7", "About" stays. */
export function printedText(text: string): string {
  return text.replace(
    /(?<![\p{L}\d])([A-G])(b|#)(?=m|maj|min|dim|aug|sus|add|ø|°|Δ|\d|\(|\/|[^\p{L}]|$)/gu,
    (_, letter: string, sign: string) => letter + (sign === "b" ? "♭" : "♯"),
  );
}
