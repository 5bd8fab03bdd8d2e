/** How a finding came to be said, and what was not said, in words. */
import type { Analysis, Finding } from "../../src/account.ts";
import { capital, count, countInWords } from "../../src/words/index.ts";
import { isGoal } from "./finding-words.ts";

const CHANCE: Readonly<Record<NonNullable<Finding["chance"]>["null"], string>> = {
  "pitches drawn": "pitches drawn from the same range",
  "pitches shuffled": "the same pitches in another order",
  "moved in time": "the same notes moved in time",
};

type Judged = Pick<Finding, "id" | "measure" | "unit" | "basis" | "observed" | "chance">;

/** Sentences on how a finding was judged: what was counted, against which chance, and how often chance did as well. */
export function judgedWords(finding: Judged): readonly string[] {
  const { chance, unit } = finding;
  if (isGoal(finding)) {
    return [...countedWords(finding), "This is a goal that was set; the take is checked against it."];
  }
  if (chance === undefined) return [...countedWords(finding), BASIS[finding.basis ?? "fact"]];
  const { median, low, high, draws, p } = chance;
  const among =
    median === null || low === null || high === null
      ? []
      : [
          `Chance gives ${amount(median, unit)} in the middle, and ${number(low, unit)} to ${amount(high, unit)} in 95 of 100 draws.`,
        ];
  return [
    ...countedWords(finding),
    `Chance here is ${CHANCE[chance.null]}, drawn ${count(draws, "time")}.`,
    ...among,
    `Chance did as well in ${asWell(p, draws)} of ${draws} draws.`,
  ];
}

const BASIS: Readonly<Record<NonNullable<Finding["basis"]>, string>> = {
  fact: "A fact of the take: it is not tested against chance.",
  idea: "What returns was tested against chance when it was found; it is not tested here again.",
  chance: "It was weighed against chance.",
};

function countedWords({ measure, unit, observed }: Judged): string[] {
  return [
    ...(measure === undefined ? [] : [`Counted: ${measure}.`]),
    ...(observed === undefined ? [] : [`In the take: ${amount(observed, unit)}.`]),
  ];
}

/** A count with its unit: "46 %", "3.5 for each hundred notes". */
export function amount(value: number, unit: Finding["unit"]): string {
  const words = number(value, unit);
  switch (unit) {
    case undefined:
    case "ratio":
      return words;
    case "share":
      return `${words} %`;
    case "times":
    case "notes":
    case "semitones":
    case "choruses":
    case "phrases":
    case "outlines":
    case "note lengths":
    case "seconds":
    case "milliseconds":
    case "chords":
    case "beats":
      return `${words} ${value === 1 ? SINGULAR[unit] : unit}`;
    case "for each hundred notes":
    case "notes a bar":
      return `${words} ${unit}`;
    case "percent a minute":
      return `${words} % a minute`;
  }
}

const SINGULAR = {
  times: "time",
  notes: "note",
  semitones: "semitone",
  choruses: "chorus",
  phrases: "phrase",
  outlines: "outline",
  "note lengths": "note length",
  seconds: "second",
  beats: "beat",
  milliseconds: "millisecond",
  chords: "chord",
} as const;

function number(value: number, unit: Finding["unit"]): string {
  return unit === "share" ? String(Math.round(100 * value)) : String(Number(value.toPrecision(3)));
}

/** In how many draws chance did as well: p counts the take itself among one more than all draws. */
export function asWell(p: number, draws: number): number {
  return Math.max(0, Math.round(p * (draws + 1)) - 1);
}

const WHY: readonly (readonly [Analysis["withheld"][number]["why"], string])[] = [
  ["chance", "because chance would often do as well"],
  ["chart", "about the harmony, until it is known that the chart is the right one"],
  ["place", "about harmony and time, until it is known where the bars lie"],
  ["contradicts", "because something weightier says otherwise"],
  ["repeats", "because something weightier says it already"],
  ["unsure", "because of notes that were not heard surely"],
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
      return n === 0 ? [] : [`${capital(countInWords(n))} ${words}`];
    }),
  };
}
