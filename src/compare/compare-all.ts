import { bootstrapOne } from "./bootstrap.ts";
import { changeInWords, changesOf } from "./change.ts";
import { compareSides, summaryOf } from "./compare-sides.ts";
import type { ManyCompared } from "./comparison-schema.ts";
import { jensenShannon } from "./jensen-shannon.ts";
import { DISTRIBUTIONS, MEASURES } from "./measures.ts";
import { barsTogether } from "./same-bar.ts";
import type { Sample } from "./sample.ts";
import { sharedOf } from "./shared.ts";
import { sharesOf } from "./shares.ts";
import { measureOf, statisticOf } from "./statistic.ts";
import { trendOf } from "./trend.ts";

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
        ways: measure.ways,
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
