/** How a finding came to be said, and what was not said, in words. */
import type { Analysis, Finding } from "../../src/account.ts";
import { count } from "../../src/words/index.ts";
import { isGoal } from "./finding-words.ts";

const CHANCE: Readonly<Record<NonNullable<Finding["chance"]>["null"], string>> = {
  "pitches drawn": "pitches drawn from the same range",
  "pitches shuffled": "the same pitches in another order",
  "moved in time": "the same notes moved in time",
};

/** Sentences on how a finding was judged: what was measured, against which chance, and how often chance did as well. */
export function judgedWords(
  finding: Pick<Finding, "id" | "heading" | "observed" | "chance">,
): readonly string[] {
  const { observed, chance } = finding;
  const measured = observed === undefined ? [] : [`Measured in the take: ${short(observed)}.`];
  if (isGoal(finding)) return [...measured, "This is a goal that was set; the take is checked against it."];
  if (chance === undefined) {
    return [
      ...measured,
      finding.heading === "melodic and motivic development"
        ? "A fact of the take, or an idea that was tested against chance when it was found; it is not tested here again."
        : "A fact of the take: it is not tested against chance.",
    ];
  }
  const { median, low, high, draws, p } = chance;
  const among =
    median === null || low === null || high === null
      ? []
      : [
          `Chance gives ${short(median)} in the middle, and ${short(low)} to ${short(high)} in 95 of 100 draws.`,
        ];
  return [
    ...measured,
    `Chance here is ${CHANCE[chance.null]}, drawn ${count(draws, "time")}.`,
    ...among,
    `Chance did as well in ${asWell(p, draws)} of ${draws} draws.`,
  ];
}

/** In how many draws chance did as well: p counts the take itself among one more than all draws. */
export function asWell(p: number, draws: number): number {
  return Math.max(0, Math.round(p * (draws + 1)) - 1);
}

function short(value: number): string {
  return String(Number(value.toPrecision(3)));
}

const WHY: readonly (readonly [Analysis["withheld"][number]["why"], string])[] = [
  ["chance", "because chance would often do as well"],
  ["chart", "about the harmony, until it is known that the chart is the right one"],
  ["contradicts", "because something weightier says otherwise"],
];

/** How many findings were not said, and a line for each reason; null when nothing was held back. */
export function heldBackWords(
  withheld: Analysis["withheld"],
): { readonly summary: string; readonly reasons: readonly string[] } | null {
  if (withheld.length === 0) return null;
  return {
    summary: `Held back: ${count(withheld.length, "finding")}`,
    reasons: WHY.flatMap(([why, words]) => {
      const n = withheld.filter((one) => one.why === why).length;
      return n === 0 ? [] : [`${n} ${words}`];
    }),
  };
}
