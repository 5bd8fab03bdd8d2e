import { jensenShannonOfCounts } from "./jensen-shannon.ts";
import type { Measure, QuantileSpread, RatioOfSums } from "./measures.ts";
import type { Unit } from "./sample.ts";

/** A statistic of a choice of units, given by their indices, which may repeat. Null when they do not say. */
export type Statistic = (chosen: readonly number[]) => number | null;

/**
 * A measure made ready for being asked thousands of times of different choices of the same units: all that depends on
 * a single unit is worked out once.
 */
export function statisticOf(measure: Measure, units: readonly Unit[]): Statistic {
  return measure.of.kind === "ratio"
    ? ratioStatistic(measure.of, units)
    : quantileStatistic(measure.of, units);
}

/** The measure of all units. */
export function measureOf(measure: Measure, units: readonly Unit[]): number | null {
  return statisticOf(measure, units)(units.map((_, i) => i));
}

/** Jensen-Shannon divergence of two choices of units, by their labels. */
export function divergenceOf(
  labels: readonly (readonly (string | null)[])[],
): (a: readonly number[], b: readonly number[]) => number {
  const names = new Map<string, number>();
  for (const list of labels) {
    for (const label of list) if (label !== null && !names.has(label)) names.set(label, names.size);
  }
  const counts = labels.map((list) => {
    const row = new Float64Array(names.size);
    for (const label of list) if (label !== null) row[names.get(label)!]!++;
    return row;
  });
  const pool = (chosen: readonly number[]) => {
    const sum = new Float64Array(names.size);
    for (const unit of chosen) {
      const row = counts[unit]!;
      for (let k = 0; k < sum.length; k++) sum[k]! += row[k]!;
    }
    return sum;
  };
  return (a, b) => jensenShannonOfCounts(pool(a), pool(b));
}

function ratioStatistic(of: RatioOfSums, units: readonly Unit[]): Statistic {
  const over = Float64Array.from(units, (unit) => of.over(unit) ?? 0);
  const under = Float64Array.from(units, (unit) => (of.over(unit) === null ? 0 : of.under(unit)));
  return (chosen) => {
    let top = 0;
    let bottom = 0;
    for (const unit of chosen) {
      top += over[unit]!;
      bottom += under[unit]!;
    }
    return bottom > 0 ? top / bottom : null;
  };
}

/** All values sorted once; a choice then only says how often each of them counts. */
function quantileStatistic(of: QuantileSpread, units: readonly Unit[]): Statistic {
  const poolSamples = units
    .flatMap((unit, index) => of.values(unit).map((value) => ({ value, index })))
    .sort((a, b) => a.value - b.value);
  const values = Float64Array.from(poolSamples, (one) => one.value);
  const owner = Int32Array.from(poolSamples, (one) => one.index);
  const sizes = Int32Array.from(units, (unit) => of.values(unit).length);
  const times = new Int32Array(units.length);
  const at = (rank: number) => {
    let passed = 0;
    for (let i = 0; i < values.length; i++) {
      passed += times[owner[i]!]!;
      if (passed > rank) return values[i]!;
    }
    return values[values.length - 1]!;
  };
  const quantile = (count: number, share: number) => {
    const place = (count - 1) * share;
    const below = Math.floor(place);
    const low = at(below);
    return place === below ? low : low + (at(below + 1) - low) * (place - below);
  };
  return (chosen) => {
    times.fill(0);
    let count = 0;
    for (const unit of chosen) {
      times[unit]!++;
      count += sizes[unit]!;
    }
    if (count < of.least) return null;
    return quantile(count, of.high) - (of.low === null ? 0 : quantile(count, of.low));
  };
}
