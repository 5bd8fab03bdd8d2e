import { falseDiscoveryRates } from "../statistics/false-discovery.ts";
import { bootstrapInterval } from "./bootstrap.ts";
import { cliffsDelta } from "./cliffs-delta.ts";
import type {
  Comparison,
  DistributionComparison,
  MeasureComparison,
  SampleSummary,
  Verdict,
} from "./comparison-schema.ts";
import { jensenShannon } from "./jensen-shannon.ts";
import { labelWords } from "./label-words.ts";
import { DISTRIBUTIONS, type Distribution, MEASURES, type Measure } from "./measures.ts";
import { type PermutationResult, permutationTest } from "./permutation.ts";
import { barsTogether } from "./same-bar.ts";
import type { Sample, Unit } from "./sample.ts";
import { sharedOf } from "./shared.ts";
import { type Shares, sharesOf } from "./shares.ts";
import { divergenceOf, statisticOf } from "./statistic.ts";
import { summaryWords } from "./summary-words.ts";
import { verdictOf, verdictOfDistributions } from "./verdict.ts";

/**
 * Two sides next to each other: every measure with its difference, 95 % bootstrap interval, effect size and a
 * permutation test over phrases; every distribution with its divergence; in plain words, with the false-discovery
 * rate held over the whole page. The same seed gives the same result.
 */
export function compareSides(a: Sample, b: Sample, seed: number): Comparison {
  const raw = MEASURES.map((measure) => compareMeasure(measure, a, b, seed));
  const spread = DISTRIBUTIONS.map(({ labels }) => testDistribution(a, b, labels, seed));
  const tests = [...raw.map((one) => one.test), ...spread];
  const q = adjustedTests(tests);
  const measures = raw.map((one, i) => finishMeasure(one, q[i]!, a, b));
  const distributions = DISTRIBUTIONS.map((one, i) =>
    finishDistribution(one, spread[i] ?? null, q[raw.length + i] ?? null, a, b),
  );
  return {
    sides: [summaryOf(a), summaryOf(b)],
    measures,
    distributions,
    shared: sharedOf([a, b]),
    bars: barsTogether([a, b]),
    summary: summaryWords(
      a.name,
      b.name,
      measures.map(({ verdict }, i) => ({ verdict, more: MEASURES[i]!.more, less: MEASURES[i]!.less })),
      distributions.map(({ id, verdict, name, differences: [top] }) => ({
        verdict,
        name,
        top: top && { words: labelWords(id, top.label), difference: top.difference },
      })),
    ),
  };
}

function finishDistribution(
  { id, name, labels }: Distribution,
  test: PermutationResult | null,
  q: number | null,
  a: Sample,
  b: Sample,
): DistributionComparison {
  const [first, second] = [sharesOf(a.units.flatMap(labels)), sharesOf(b.units.flatMap(labels))];
  const verdict = verdictOfDistributions(test === null || q === null ? null : { ...test, q });
  const differences = differencesOf(first, second);
  return {
    id,
    name,
    a: first,
    b: second,
    divergence: jensenShannon(first, second),
    p: test?.p ?? null,
    q,
    verdict,
    differences,
    sentence: distributionSentence({ id, name }, verdict, differences, a, b),
  };
}

export function summaryOf(side: Sample): SampleSummary {
  return { name: side.name, notes: side.notes.length, phrases: side.units.length, register: side.register };
}

interface RawMeasure {
  readonly measure: Measure;
  readonly a: number | null;
  readonly b: number | null;
  readonly difference: number | null;
  readonly interval: readonly [number, number] | null;
  readonly delta: number | null;
  readonly test: PermutationResult | null;
}

function compareMeasure(measure: Measure, a: Sample, b: Sample, seed: number): RawMeasure {
  const units = [...a.units, ...b.units];
  const value = statisticOf(measure, units);
  const first = a.units.map((_, i) => i);
  const second = b.units.map((_, i) => a.units.length + i);
  const statistic = (x: readonly number[], y: readonly number[]) => {
    const [left, right] = [value(x), value(y)];
    return left === null || right === null ? null : left - right;
  };
  const single = (chosen: readonly number[]) =>
    chosen.map((unit) => value([unit])).filter((one) => one !== null);
  return {
    measure,
    a: value(first),
    b: value(second),
    difference: statistic(first, second),
    interval: bootstrapInterval(first, second, statistic, seed),
    delta: cliffsDelta(single(first), single(second)),
    test: permutationTest(first, second, statistic, seed),
  };
}

function testDistribution(
  a: Sample,
  b: Sample,
  labels: (unit: Unit) => readonly (string | null)[],
  seed: number,
): PermutationResult | null {
  const known = (side: Sample) =>
    side.units.map(labels).filter((list) => list.some((label) => label !== null));
  const [first, second] = [known(a), known(b)];
  const divergence = divergenceOf([...first, ...second]);
  return permutationTest(
    first.map((_, i) => i),
    second.map((_, i) => first.length + i),
    divergence,
    seed,
  );
}

function adjustedTests(tests: readonly (PermutationResult | null)[]): (number | null)[] {
  const known = tests.flatMap((test) => (test === null ? [] : [test.p]));
  const q = falseDiscoveryRates(known);
  let next = 0;
  return tests.map((test) => (test === null ? null : q[next++]!));
}

function finishMeasure(raw: RawMeasure, q: number | null, a: Sample, b: Sample): MeasureComparison {
  const { measure, test, difference, delta } = raw;
  const evidence =
    test === null || q === null || difference === null
      ? null
      : { difference, delta, p: test.p, q, least: test.least };
  const verdict = verdictOf(evidence);
  return {
    id: measure.id,
    name: measure.name,
    unit: measure.unit,
    a: raw.a,
    b: raw.b,
    difference,
    interval: raw.interval,
    delta,
    p: test?.p ?? null,
    q,
    verdict,
    sentence: measureSentence(measure, verdict, a, b),
  };
}

function measureSentence(measure: Measure, verdict: Verdict, a: Sample, b: Sample): string {
  switch (verdict) {
    case "clearly more":
      return `${a.name} clearly has ${measure.more} than ${b.name}.`;
    case "clearly less":
      return `${a.name} clearly has ${measure.less} than ${b.name}.`;
    case "perhaps more":
      return `${a.name} perhaps has ${measure.more} than ${b.name}; more takes would tell.`;
    case "perhaps less":
      return `${a.name} perhaps has ${measure.less} than ${b.name}; more takes would tell.`;
    case "too little to say":
      return `${measure.name}: too few phrases to say.`;
    case "clearly different":
    case "perhaps different":
    case "no clear difference":
      return `${measure.name}: no clear difference.`;
  }
}

function differencesOf(a: Shares, b: Shares): { label: string; difference: number }[] {
  return [...new Set([...Object.keys(a), ...Object.keys(b)])]
    .map((label) => ({ label, difference: (a[label] ?? 0) - (b[label] ?? 0) }))
    .sort((x, y) => Math.abs(y.difference) - Math.abs(x.difference) || (x.label < y.label ? -1 : 1));
}

function distributionSentence(
  { id, name }: Pick<Distribution, "id" | "name">,
  verdict: Verdict,
  differences: readonly { label: string; difference: number }[],
  a: Sample,
  b: Sample,
): string {
  if (verdict === "too little to say") return `${name}: too few phrases to say.`;
  const top = differences[0];
  if (verdict === "no clear difference" || top === undefined) return `${name}: no clear difference.`;
  const [fuller, other] = top.difference > 0 ? [a, b] : [b, a];
  const how = verdict === "clearly different" ? "clearly different" : "perhaps different";
  return `${name}: ${how}, most of all in ${labelWords(id, top.label)}, of which ${fuller.name} has more than ${other.name}.`;
}
