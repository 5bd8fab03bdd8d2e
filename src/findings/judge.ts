/**
 * Chance as the judge: a finding is said only where chance, made from the take itself, seldom does as well.
 *
 * What a rule that fired counts is counted again in draws of its null. The share of draws that do as well is a Monte
 * Carlo p-value (Davison & Hinkley 1997, Bootstrap Methods, section 4.2 [memory]: one more than those draws over one
 * more than all), and the rules of a take share one false-discovery rate (Benjamini & Hochberg 1995). What chance
 * plainly does as well is given up early (Besag & Clifford 1991, Sequential Monte Carlo p-values, Biometrika 78
 * [memory]: the p-value is then the number of those draws over the number of all until then).
 */
import { quantileSorted } from "d3-array";
import { falseDiscoveryRates } from "../statistics/false-discovery.ts";
import type { MeasuredLine } from "./measured-line.ts";
import { type Match, NULLS, type Null, type Rule, type Weighed } from "./rule.ts";

/** The line of a draw of a null; null gives the take's own, read by the same means. */
export type DrawLine = (kind: Null, draw: number | null) => MeasuredLine;

/** A rule that fired on the take. */
export interface Fired {
  readonly rule: Rule;
  readonly match: Match;
}

/** What chance has to say of one finding. */
export interface ChanceWeighed {
  readonly null: Null;
  readonly draws: number;
  /** Share of draws that do as well. */
  readonly p: number;
  /** The same with the take's other rules taken into account. */
  readonly q: number;
  /** The count among the draws: median, and bounds of 95 %; null where most draws have nothing to count. */
  readonly median: number | null;
  readonly low: number | null;
  readonly high: number | null;
}

/** A finding with its count in the take. */
export interface Judgement {
  readonly observed: number;
  readonly chance: ChanceWeighed;
}

/** Draws of a null: p-values down to half a percent, so that the best of twenty rules can be told. */
const DRAWS = 199;
/** A finding that so many draws have equalled is given up. */
const GIVEN_UP = 10;
/** False-discovery rate of the findings of a take. */
export const RATE = 0.1;

/** Counts nearer than this are equal: shares are sums of fractions. */
const NEAR = 1e-9;

interface Trial {
  readonly id: string;
  readonly weighed: Weighed;
  readonly observed: number;
  readonly values: number[];
  as: number;
  draws: number;
}

/** Weighs what fired against its nulls, by rule id. Rules without a null are not in it. */
export function weighByChance(fired: readonly Fired[], drawLine: DrawLine): Map<string, Judgement> {
  const trials = NULLS.flatMap((kind) => runTrials(kind, fired, drawLine));
  const qs = falseDiscoveryRates(trials.map(shareOf));
  return new Map(
    trials.map((trial, i) => [
      trial.id,
      {
        observed: rounded(trial.observed),
        chance: {
          null: trial.weighed.null,
          draws: trial.draws,
          p: shareOf(trial),
          q: qs[i]!,
          ...spreadOf(trial),
        },
      },
    ]),
  );
}

function runTrials(kind: Null, fired: readonly Fired[], drawLine: DrawLine): Trial[] {
  const rules = fired.filter(({ rule: { chance } }) => typeof chance === "object" && chance.null === kind);
  if (rules.length === 0) return [];
  const own = drawLine(kind, null);
  const trials = rules.map(({ rule }): Trial => {
    const weighed = rule.chance as Weighed;
    return { id: rule.id, weighed, observed: weighed.count(own) ?? 0, values: [], as: 0, draws: 0 };
  });
  let open = trials;
  for (let draw = 0; draw < DRAWS && open.length > 0; draw++) {
    const line = drawLine(kind, draw);
    for (const trial of open) tryOn(trial, line);
    open = open.filter(({ as }) => as < GIVEN_UP);
  }
  return trials;
}

function tryOn(trial: Trial, line: MeasuredLine): void {
  const { weighed, observed } = trial;
  trial.draws++;
  const drawn = weighed.count(line);
  if (drawn === null) return;
  trial.values.push(drawn);
  const ahead = weighed.than === "more" ? drawn - observed : observed - drawn;
  if (ahead >= -NEAR) trial.as++;
}

/** Share of draws that do as well: the take itself is counted in, unless the draws were broken off. */
function shareOf({ as, draws }: Trial): number {
  return as >= GIVEN_UP ? as / draws : (1 + as) / (1 + draws);
}

function spreadOf({ values, draws }: Trial): Pick<ChanceWeighed, "median" | "low" | "high"> {
  if (values.length * 2 < draws) return { median: null, low: null, high: null };
  const sorted = [...values].sort((a, b) => a - b);
  const at = (p: number) => rounded(quantileSorted(sorted, p)!);
  return { median: at(0.5), low: at(0.025), high: at(0.975) };
}

function rounded(value: number): number {
  return Math.round(value * 1000) / 1000;
}
