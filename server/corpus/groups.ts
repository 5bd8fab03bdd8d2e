/**
 * Two parts of a corpus against each other. The units are takes, since notes and phrases of one take are not
 * independent: quartiles, Cliff's delta with its bootstrap interval, a permutation test over takes, and the
 * false-discovery rate held over all that is compared.
 */
import { median } from "d3-array";
import {
  bootstrapInterval,
  cliffsDelta,
  jensenShannonOfCounts,
  permutationTest,
  verdictOf,
  verdictOfDistributions,
} from "../../src/compare/index.ts";
import { HARMONIC_ROLES, LINE_ROLES } from "../../src/harmony/roles.ts";
import { falseDiscoveryRates } from "../../src/statistics/false-discovery.ts";
import type { GroupComparison } from "../contract/corpus-results.ts";
import type { Filter } from "../contract/filter.ts";
import type { Database } from "../store/database.ts";
import { MEANT, meantValues, ORDER } from "./filter.ts";

const MEASURES = {
  tempo: "tempo",
  swing: "swing ratio",
  placementShare: "share of notes in a placement",
  runShare: "share of notes in stepwise runs",
  rests: "share of time at rest",
  perSecond: "notes a second",
} as const;

interface TakeRow {
  readonly id: string;
  readonly facts: Readonly<Record<string, number | null>>;
  readonly roles: readonly number[];
  readonly lineRoles: readonly number[];
}

export async function compareGroups(
  database: Database,
  corpus: string,
  filters: { readonly a: Filter; readonly b: Filter },
  seed: number,
): Promise<GroupComparison> {
  const [a, b] = await Promise.all([
    rowsOf(database, corpus, filters.a),
    rowsOf(database, corpus, filters.b),
  ]);
  const measures = Object.entries(MEASURES).map(([id, name]) => measureOf(id, name, a, b, seed));
  const distributions = [
    distributionOf("roles", HARMONIC_ROLES, (row) => row.roles, a, b, seed),
    distributionOf("lineRoles", LINE_ROLES, (row) => row.lineRoles, a, b, seed),
  ];
  const tests = [...measures, ...distributions];
  const held = falseDiscoveryRates(tests.flatMap((test) => (test.p === null ? [] : [test.p])));
  let k = 0;
  const q = tests.map((test) => (test.p === null ? null : held[k++]!));
  return {
    takes: { a: a.length, b: b.length },
    measures: measures.map(({ least, ...test }, i) => ({
      ...test,
      q: q[i]!,
      verdict: verdictOf(
        test.p === null || test.difference === null
          ? null
          : { difference: test.difference, delta: test.delta, p: test.p, q: q[i]!, least },
      ),
    })),
    distributions: distributions.map(({ least, ...test }, i) => {
      const qi = q[measures.length + i]!;
      return {
        ...test,
        q: qi,
        verdict: verdictOfDistributions(test.p === null ? null : { p: test.p, q: qi!, least }),
      };
    }),
  };
}

function measureOf(id: string, name: string, a: readonly TakeRow[], b: readonly TakeRow[], seed: number) {
  const [x, y] = [known(a, id), known(b, id)];
  const difference = (one: readonly number[], other: readonly number[]) =>
    one.length === 0 || other.length === 0 ? null : median(one)! - median(other)!;
  const enough = x.length >= 2 && y.length >= 2;
  const test = enough ? permutationTest(x, y, difference, seed) : null;
  return {
    id,
    name,
    a: median(x) ?? null,
    b: median(y) ?? null,
    difference: difference(x, y),
    interval: enough ? bootstrapInterval(x, y, difference, seed) : null,
    delta: cliffsDelta(x, y),
    p: test?.p ?? null,
    least: test?.least ?? 1,
  };
}

function distributionOf(
  id: string,
  labels: readonly string[],
  counts: (row: TakeRow) => readonly number[],
  a: readonly TakeRow[],
  b: readonly TakeRow[],
  seed: number,
) {
  const sum = (rows: readonly TakeRow[]) => {
    const total = new Float64Array(labels.length);
    for (const row of rows) {
      const values = counts(row);
      for (let i = 0; i < total.length; i++) total[i]! += values[i]!;
    }
    return total;
  };
  const divergence = (one: readonly TakeRow[], other: readonly TakeRow[]) =>
    jensenShannonOfCounts(sum(one), sum(other));
  const test = a.length >= 2 && b.length >= 2 ? permutationTest(a, b, divergence, seed) : null;
  return {
    id,
    a: sharesOf(labels, sum(a)),
    b: sharesOf(labels, sum(b)),
    divergence: divergence(a, b),
    p: test?.p ?? null,
    least: test?.least ?? 1,
  };
}

async function rowsOf(database: Database, corpus: string, filter: Filter): Promise<TakeRow[]> {
  const values = meantValues(corpus, filter);
  const [takes, tallies] = await Promise.all([
    database.query<{ id: string; facts: TakeRow["facts"] }>(
      `select t.id, a.facts ${MEANT} order by ${ORDER}`,
      values,
    ),
    database.query<{ id: string; role: string; lineRole: string; notes: number }>(
      `with meant as (select t.id, t.analysis ${MEANT})
       select meant.id, y.role, y.line_role as "lineRole", sum(y.notes)::int as notes
       from meant join tallies y on y.key = meant.analysis group by 1, 2, 3`,
      values,
    ),
  ]);
  const counted = new Map(
    takes.map((take) => [
      take.id,
      { ...take, roles: HARMONIC_ROLES.map(() => 0), lineRoles: LINE_ROLES.map(() => 0) },
    ]),
  );
  for (const { id, role, lineRole, notes } of tallies) {
    const row = counted.get(id)!;
    row.roles[HARMONIC_ROLES.indexOf(role as never)]! += notes;
    row.lineRoles[LINE_ROLES.indexOf(lineRole as never)]! += notes;
  }
  return [...counted.values()];
}

function known(rows: readonly TakeRow[], id: string): number[] {
  return rows.flatMap((row) => {
    const value = row.facts[id];
    return value === null || value === undefined ? [] : [value];
  });
}

function sharesOf(labels: readonly string[], counts: Float64Array): Record<string, number> {
  const all = counts.reduce((sum, count) => sum + count, 0);
  return Object.fromEntries(labels.map((label, i) => [label, all === 0 ? 0 : counts[i]! / all]));
}
