/**
 * What may be said of a change over a row of takes: one verdict for progress, comparison and lens. Two sides are told
 * apart by their phrases (permutation test with the false-discovery rate held, and an effect that is large enough to
 * matter: `compareSides`); a number that only a whole take has is followed by its order alone (`trendOf`).
 */
import { compareSides } from "./compare-sides.ts";
import type { Change, Verdict } from "./comparison-schema.ts";
import type { Sample } from "./sample.ts";
import { trendOf } from "./trend.ts";

const TURNED: Readonly<Record<Verdict, Verdict>> = {
  "clearly more": "clearly less",
  "clearly less": "clearly more",
  "perhaps more": "perhaps less",
  "perhaps less": "perhaps more",
  "clearly different": "clearly different",
  "perhaps different": "perhaps different",
  "no clear difference": "no clear difference",
  "too little to say": "too little to say",
};

/** The changes of every measure over sides in the order of time, by the measure's id; none for a single side. */
export function changesOf(sides: readonly Sample[], seed = 1): ReadonlyMap<string, Change> {
  const [first, last] = [sides[0], sides.at(-1)];
  if (first === undefined || last === undefined || sides.length < 2) return new Map();
  const ends = compareSides(first, last, seed).measures;
  const steps =
    sides.length === 2
      ? [ends]
      : sides.slice(1).map((side, i) => compareSides(sides[i]!, side, seed).measures);
  return new Map(
    ends.map(({ id, verdict, delta, p, q }, m) => [
      id,
      {
        verdict: TURNED[verdict],
        steps: steps.map((step) => TURNED[step[m]!.verdict]),
        trend: null,
        delta: delta === null ? null : -delta,
        p,
        q,
      },
    ]),
  );
}

/** The change of a number that only whole takes have. */
export function changeOfValues(values: readonly (number | null)[]): Change {
  return { verdict: null, steps: [], trend: trendOf(values), delta: null, p: null, q: null };
}

/** Which way it went, and how sure that is; null for no direction that may be named. */
function directionOf({ verdict, trend }: Change): { readonly more: boolean; readonly sure: boolean } | null {
  if (verdict !== null) {
    const [how, way] = verdict.split(" ");
    return way === "more" || way === "less" ? { more: way === "more", sure: how === "clearly" } : null;
  }
  if (trend === null || trend.words === "no clear trend") return null;
  // Three or four values all rise by chance often enough (1 in 3, 1 in 12).
  return { more: trend.tau > 0, sure: trend.p !== null ? trend.p <= 0.05 : true };
}

export interface ChangeInWords {
  /** "clearly more, as hoped". */
  readonly short: string;
  /** "Share of rest: clearly more, as hoped (15 % to 43 %), most of all with “Week 4”." */
  readonly sentence: string;
}

export interface Told {
  readonly name: string;
  /** Which way a teacher hopes it goes; null where neither is better. */
  readonly hope: "up" | "down" | null;
  /** First and last value with their unit; null where there are none. */
  readonly ends: readonly [string, string] | null;
  /** Names of the sides. */
  readonly sides: readonly string[];
  /** What a greater and a smaller value is called where "more" and "less" would say nothing: "later", "earlier". */
  readonly ways?: readonly [string, string] | undefined;
}

/** The change with its doubt in words; names of statistics stay out of it. */
export function changeInWords(
  change: Change,
  { name, hope, ends, sides, ways = ["more", "less"] }: Told,
): ChangeInWords {
  const from = ends === null ? "" : ` (${ends[0]} to ${ends[1]})`;
  const direction = directionOf(change);
  if (direction === null) {
    const short = tooLittle(change) ? "too little to say" : "no clear change";
    return { short, sentence: `${name}: ${short}${from}.` };
  }
  const { more, sure } = direction;
  const wished = hope !== null && (hope === "up") === more ? ", as hoped" : "";
  const short = `${sure ? "clearly" : "perhaps"} ${ways[more ? 0 : 1]}${wished}`;
  const doubt = sure ? "" : "; more takes would tell";
  return { short, sentence: `${name}: ${short}${from}${stepWords(change, more, sides)}${doubt}.` };
}

function tooLittle({ verdict, trend }: Change): boolean {
  return verdict === null ? trend === null : verdict === "too little to say";
}

/** ", with “Week 4”": the steps at which it clearly went that way, where there were several to choose from. */
function stepWords({ steps }: Change, more: boolean, sides: readonly string[]): string {
  if (steps.length < 2) return "";
  const wanted: Verdict = more ? "clearly more" : "clearly less";
  const at = steps.flatMap((step, i) => (step === wanted ? [`“${sides[i + 1]}”`] : []));
  if (at.length === 0) return ", little by little";
  return `, most of all with ${at.join(" and ")}`;
}
