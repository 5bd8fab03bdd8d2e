import { listInWords } from "../words/index.ts";
import type { Verdict } from "./comparison-schema.ts";

/** A measure with what it is called where a side has more or less of it. */
export interface Said {
  readonly verdict: Verdict;
  readonly more: string;
  readonly less: string;
}

/** A distribution with the label by which the sides differ most. */
export interface Spread {
  readonly verdict: Verdict;
  readonly name: string;
  /** In words, for many notes: "blue notes". */
  readonly top: { readonly words: string; readonly difference: number } | undefined;
}

/**
 * All that may be said of two sides in at most four sentences: what the first clearly and perhaps has more or less
 * of, and in what the two are spread differently. Empty where nothing is clear.
 */
export function summaryWords(
  a: string,
  b: string,
  measures: readonly Said[],
  spreads: readonly Spread[],
): string[] {
  const clear = listed(measures, "clearly");
  const perhaps = listed(measures, "perhaps");
  const differ = spreads.filter((spread) => /^(clearly|perhaps) different$/.test(spread.verdict));
  return [
    ...(clear === "" ? [] : [`${a} clearly has ${clear} than ${b}.`]),
    ...(perhaps === "" ? [] : [`Perhaps ${a} also has ${perhaps}; more takes would tell.`]),
    ...differ.map(({ verdict, name, top }) => {
      const how = verdict === "clearly different" ? "differ clearly" : "perhaps differ";
      if (top === undefined) return `${name} ${how}.`;
      return `${name} ${how}, most of all in ${top.words}, of which ${top.difference > 0 ? a : b} has more.`;
    }),
  ];
}

function listed(measures: readonly Said[], sure: "clearly" | "perhaps"): string {
  const words = measures.flatMap(({ verdict, more, less }) =>
    verdict === `${sure} more` ? [more] : verdict === `${sure} less` ? [less] : [],
  );
  return listInWords(words);
}
