import { bootstrapOne } from "./bootstrap.ts";
import { type Change, changeInWords, changesOf } from "./change.ts";
import { type Comparison, compareSides, type SampleSummary, summaryOf } from "./compare-sides.ts";
import { jensenShannon } from "./jensen-shannon.ts";
import { DISTRIBUTIONS, MEASURES, type Measure } from "./measures.ts";
import { type BarTogether, barsTogether } from "./same-bar.ts";
import type { Sample } from "./sample.ts";
import { type Shared, sharedOf } from "./shared.ts";
import { type Shares, sharesOf } from "./shares.ts";
import { measureOf, statisticOf } from "./statistic.ts";
import { type Trend, trendOf } from "./trend.ts";

/** Three or more sides: small multiples and their trend. */
export interface ManyCompared {
  readonly sides: readonly SampleSummary[];
  readonly measures: readonly {
    readonly id: string;
    readonly name: string;
    readonly unit: Measure["unit"];
    /** One for each side. */
    readonly values: readonly (number | null)[];
    /** Added: 95 % interval of each value by the bootstrap over phrases; null where a side has too few. */
    readonly intervals: readonly (readonly [number, number] | null)[];
    readonly trend: Trend | null;
    /** Added: what may be said of the whole row, and the same in a few words. */
    readonly change: Change;
    readonly words: string;
    readonly sentence: string;
  }[];
  readonly distributions: readonly {
    readonly id: string;
    readonly name: string;
    readonly shares: readonly Shares[];
    /** Jensen-Shannon, base 2, of each side against the one before it; null for the first. */
    readonly steps: readonly (number | null)[];
  }[];
  readonly shared: Shared;
  readonly bars: readonly BarTogether[];
  /** Added: the first side beside the last, with intervals and effect sizes. */
  readonly ends: Comparison;
}

/**
 * Sides in a meaningful order (choruses, weeks), each measure as a row with its trend. The same seed gives the same
 * result. @throws RangeError for fewer than two sides
 */
export function compareAll(sides: readonly Sample[], seed = 1): ManyCompared {
  const [first, last] = [sides[0], sides[sides.length - 1]];
  if (first === undefined || last === undefined || sides.length < 2) {
    throw new RangeError("a comparison needs at least two sides");
  }
  const changes = changesOf(sides, seed);
  return {
    sides: sides.map(summaryOf),
    measures: MEASURES.map((measure) => {
      const values = sides.map((side) => measureOf(measure, side.units));
      const trend = trendOf(values);
      const change = changes.get(measure.id)!;
      const { short, sentence } = changeInWords(change, {
        name: measure.name,
        hope: null,
        ends: null,
        sides: sides.map(({ name }) => name),
      });
      return {
        id: measure.id,
        name: measure.name,
        unit: measure.unit,
        values,
        intervals: sides.map(({ units }) =>
          bootstrapOne(
            units.map((_, i) => i),
            statisticOf(measure, units),
            seed,
          ),
        ),
        trend,
        change,
        words: short,
        sentence,
      };
    }),
    distributions: DISTRIBUTIONS.map(({ id, name, labels }) => {
      const shares = sides.map((side) => sharesOf(side.units.flatMap(labels)));
      return {
        id,
        name,
        shares,
        steps: shares.map((one, i) => (i === 0 ? null : jensenShannon(shares[i - 1]!, one))),
      };
    }),
    shared: sharedOf(sides),
    bars: barsTogether(sides),
    ends: compareSides(first, last, seed),
  };
}
