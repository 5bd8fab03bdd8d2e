/**
 * Chance as the judge: a finding is said only where chance, made from the take itself, seldom does as well.
 *
 * A rule that fired is tried on draws of its null; a draw does as well when the rule fires there at least as strongly.
 * The share of such draws is a Monte Carlo p-value (Davison & Hinkley 1997, Bootstrap Methods, section 4.2 [memory]:
 * one more than those draws over one more than all), and the rules of a take share one false-discovery rate
 * (Benjamini & Hochberg 1995). What chance plainly does as well is given up early (Besag & Clifford 1991, Sequential
 * Monte Carlo p-values, Biometrika 78 [memory]).
 */
import { quantile } from "d3-array";
import { falseDiscoveryRates } from "../statistics/false-discovery.ts";
import { type Account, type Facts, factsOf } from "./facts.ts";
import { type Match, NULLS, type Null, type Rule } from "./rule.ts";

/** The account that a draw of a null would have given, with or without the hand worked out anew. */
export type Redraw = (kind: Null, draw: number, withHand: boolean) => Account;

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
  /** The measure among the draws: median, and bounds of 95 %; null where the rule says nothing of most draws. */
  readonly median: number | null;
  readonly low: number | null;
  readonly high: number | null;
}

/**
 * Draws of a null at which it is looked whether more are needed, and how many of them may have done as well for it to
 * go on: most findings are plainly earned or plainly chance after the first few. A p-value of one percent can be told
 * by the last.
 */
const STAGES = [
  { draws: 19, most: 2 },
  { draws: 39, most: 1 },
  { draws: 99, most: 4 },
] as const;
/** False-discovery rate of the findings of a take. */
export const RATE = 0.1;

/** True for rules that read placements, fingers or slides, which a draw must work out anew. */
const HAND_RULES = "keyboard technique";

interface Trial {
  readonly fired: Fired;
  readonly kind: Null;
  readonly values: number[];
  as: number;
  draws: number;
}

/** Weighs what fired against its nulls, by rule id. Rules without a null are not in it. */
export function weighByChance(fired: readonly Fired[], redraw: Redraw): Map<string, ChanceWeighed> {
  const trials = fired.flatMap((one): Trial[] => {
    const { chance } = one.rule;
    return chance === "fact" || chance === "closed form"
      ? []
      : [{ fired: one, kind: chance, values: [], as: 0, draws: 0 }];
  });
  let open = trials;
  for (const { draws, most } of STAGES) {
    for (const kind of NULLS) {
      runDraws(
        open.filter((trial) => trial.kind === kind),
        redraw,
        { until: draws, most },
      );
    }
    const qs = ratesOf(trials);
    // What no draw has equalled and is kept already only gains by more of them.
    open = trials.filter(
      (trial, i) => trial.draws === draws && trial.as <= most && (trial.as > 0 || qs[i]! > RATE),
    );
  }
  const qs = ratesOf(trials);
  return new Map(
    trials.map((trial, i) => [
      trial.fired.rule.id,
      { null: trial.kind, draws: trial.draws, p: shareOf(trial), q: qs[i]!, ...spreadOf(trial) },
    ]),
  );
}

function readsHand({ fired }: Trial): boolean {
  return fired.rule.heading === HAND_RULES;
}

/** Share of draws that do as well, counting the take itself; 1 before the first. */
function shareOf({ as, draws }: Trial): number {
  return (1 + as) / (1 + draws);
}

function ratesOf(trials: readonly Trial[]): number[] {
  return falseDiscoveryRates(trials.map(shareOf));
}

interface Stage {
  /** Draws are made up to, and without, this one. */
  readonly until: number;
  /** A finding that more draws than this have equalled is given up. */
  readonly most: number;
}

function runDraws(trials: readonly Trial[], redraw: Redraw, { until, most }: Stage): void {
  const [first] = trials;
  for (let draw = first?.draws ?? until; draw < until; draw++) {
    const due = trials.filter((trial) => trial.as <= most);
    if (due.length === 0) return;
    // The hand is worked out anew only where a rule reads it: it costs as much as the rest of a draw.
    const facts = factsOf(redraw(first!.kind, draw, due.some(readsHand)));
    for (const trial of due) tryOn(trial, facts);
  }
}

function tryOn(trial: Trial, facts: Facts): void {
  const { rule, match } = trial.fired;
  trial.draws++;
  const drawn = rule.find(facts, rule.threshold);
  if (drawn !== null && asWell(drawn, match, rule)) trial.as++;
  if (drawn?.observed !== undefined) trial.values.push(drawn.observed);
}

/** True when a draw is as strong; of equal strength (most are capped), when its measure is as far out. */
function asWell(drawn: Match, match: Match, rule: Rule): boolean {
  if (drawn.strength !== match.strength) return drawn.strength > match.strength;
  if (drawn.observed === undefined || match.observed === undefined) return true;
  return upwards(match, rule) ? drawn.observed >= match.observed : drawn.observed <= match.observed;
}

function upwards({ observed }: Match, { threshold }: Rule): boolean {
  return observed === undefined || observed >= threshold;
}

function spreadOf({ values, draws }: Trial): Pick<ChanceWeighed, "median" | "low" | "high"> {
  if (values.length * 2 < draws) return { median: null, low: null, high: null };
  const at = (p: number) => rounded(quantile(values, p)!);
  return { median: at(0.5), low: at(0.025), high: at(0.975) };
}

function rounded(value: number): number {
  return Math.round(value * 1000) / 1000;
}
