/**
 * The drawing of points against what holds of it by definition: slopes are what differences tell, a sum over all
 * fingerings is the sum over every one, and the least value of a bowl is its bottom.
 */
import { describe, expect, it } from "vitest";
import { chanceFrom } from "../../src/statistics/chance.ts";
import { descend } from "./drawing/descent.ts";
import { improbability } from "./drawing/draw.ts";
import { type Example, handbookExamples } from "./drawing/examples.ts";
import { costsOfSets, logSum } from "./drawing/field.ts";
import { FACTS, FactSets, type LatticeStep } from "./drawing/lattice.ts";

const sets = new FactSets();
const examples = handbookExamples(sets);
const named = (name: string) => examples.filter(({ music }) => music === name);
const some: Example[] = [
  named("thirds")[0]!,
  named("broken chord")[1]!,
  named("five-finger position")[3]!,
].map(({ lattice, ...rest }) => ({ ...rest, lattice: lattice.slice(0, 4) }));

function points(seed: number): Float64Array {
  const chance = chanceFrom(seed);
  return Float64Array.from({ length: FACTS }, () => chance() - 0.5);
}

/** Every fingering that the steps have, gone through one by one. */
function sumOverAll(lattice: readonly LatticeStep[], at: Float64Array): number {
  const { cost } = costsOfSets(sets, at);
  let sum = 0;
  const go = (i: number, grips: readonly number[], so_far: number): void => {
    const step = lattice[i];
    if (step === undefined) {
      sum += Math.exp(-so_far);
      return;
    }
    step.own.forEach((own, c) => {
      let more = own + cost[step.ownFacts[c]!]!;
      const [e, p] = [grips[i - 2], grips[i - 1]];
      const k = (p ?? 0) * step.own.length + c;
      if (p !== undefined) more += step.link[k]! + step.linkScale[k]! * cost[step.linkFacts[k]!]!;
      if (e !== undefined && step.tripleScale > 0) {
        more += step.tripleScale * cost[step.tripleFacts[k * lattice[i - 2]!.own.length + e]!]!;
      }
      go(i + 1, [...grips, c], so_far + more);
    });
  };
  go(0, [], 0);
  return Math.log(sum);
}

describe("the field of fingerings", () => {
  it("sums over every fingering", () => {
    for (const { lattice } of some) {
      const at = points(3);
      expect(logSum(lattice, costsOfSets(sets, at), false, null, 1)).toBeCloseTo(sumOverAll(lattice, at), 8);
    }
  });

  it("knows how much likelier the known fingers become with every point", () => {
    const at = points(5);
    const slopes = new Float64Array(FACTS);
    improbability(some, sets, at, slopes);
    const scratch = new Float64Array(FACTS);
    const told = Array.from(slopes, (slope, k) => ({ slope, k })).filter(
      ({ slope }) => Math.abs(slope) > 0.05,
    );
    for (const { slope, k } of told.filter((_, n) => n % 25 === 0)) {
      const value = (by: number) =>
        improbability(
          some,
          sets,
          Float64Array.from(at, (one, j) => (j === k ? one + by : one)),
          scratch,
        );
      expect((value(1e-4) - value(-1e-4)) / 2e-4).toBeCloseTo(slope, 4);
    }
  });
});

describe("the descent", () => {
  it("finds the bottom of a narrow bowl", () => {
    const bottom = descend(
      ([x, y], out) => {
        out[0] = 2 * (x! - 3);
        out[1] = 200 * (y! + 1);
        return (x! - 3) ** 2 + 100 * (y! + 1) ** 2;
      },
      Float64Array.of(0, 0),
      50,
    );
    expect(bottom[0]).toBeCloseTo(3, 2);
    expect(bottom[1]).toBeCloseTo(-1, 2);
  });
});
