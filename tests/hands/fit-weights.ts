/**
 * Weights of the ergonomic rules fitted to some rows of the handbooks, so that others can be held out: a search along
 * one weight after the other from the published values, no row outside the fitting set looked at.
 */
import { ERGONOMIC_RULES, PUBLISHED_WEIGHTS, type RuleWeights } from "../../src/hands/ergonomics.ts";
import type { FingeringOptions } from "../../src/hands/fingerings.ts";
import { handbookAgreement } from "./handbook-agreement.ts";
import type { HandbookRow } from "./handbooks.ts";

export type Rows = (row: HandbookRow) => boolean;

/** Factors tried on each weight in turn; a weight of 0 may come back as half a point. */
const FACTORS = [0, 0.4, 0.7, 1.5, 2.5];
/** Times that all weights are gone through. */
const ROUNDS = 2;

interface Point {
  readonly weights: RuleWeights;
  readonly crossing: number;
  readonly leap: number;
}

/** The options with the best agreement on the rows that pass, by coordinate search. Deterministic. */
export function fitWeights(rows: Rows): FingeringOptions {
  let best: Point = { weights: PUBLISHED_WEIGHTS, crossing: 2, leap: 3 };
  let score = agreementOf(best, rows);
  for (let round = 0; round < ROUNDS; round++) {
    for (const next of neighbours()) {
      for (const factor of FACTORS) {
        const point = next(best, factor);
        const found = agreementOf(point, rows);
        if (found > score) [best, score] = [point, found];
      }
    }
  }
  return optionsOf(best);
}

function neighbours(): ((from: Point, factor: number) => Point)[] {
  return [
    ...ERGONOMIC_RULES.map(
      (rule) =>
        (from: Point, factor: number): Point => ({
          ...from,
          weights: { ...from.weights, [rule]: (from.weights[rule] || 0.5) * factor },
        }),
    ),
    (from, factor) => ({ ...from, crossing: (from.crossing || 0.5) * factor }),
    (from, factor) => ({ ...from, leap: (from.leap || 0.5) * factor }),
  ];
}

function agreementOf(point: Point, rows: Rows): number {
  const { notes, either } = handbookAgreement(rows, optionsOf(point));
  return either / notes;
}

function optionsOf({ weights, crossing, leap }: Point): FingeringOptions {
  return { weights, leap, sameFinger: 12, crossing: { each: crossing, perSemitone: 0 } };
}
