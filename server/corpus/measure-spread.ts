/** How each measure is spread over the takes of a corpus, and which takes stand apart in it. */
import { MEASURES, type MeasureSpreads } from "../contract/corpus-results.ts";
import type { Filter } from "../contract/filter.ts";
import type { Database } from "../store/database.ts";
import { MEANT, meantValues } from "./filter.ts";
import { middleOf, robustScore, STANDS_APART } from "./robust-score.ts";

type Measure = (typeof MEASURES)[number];

export async function measureSpreadsOf(
  database: Database,
  corpus: string,
  filter: Filter,
  limit: number,
): Promise<MeasureSpreads> {
  const takes = await database.query<
    { id: string; title: string; player: string | null } & Record<Measure, number | null>
  >(
    `select t.id, t.title, p.name as player,
       ${MEASURES.map((name) => `(a.facts->>'${name}')::float8 as "${name}"`).join(", ")} ${MEANT}
     order by t.title, t.id`,
    meantValues(corpus, filter),
  );
  const measured = MEASURES.map((measure) => {
    const values = takes.flatMap((take) => take[measure] ?? []);
    return { measure, values, middle: middleOf(values) };
  });
  const rows = takes.map((take) => {
    const scores = Object.fromEntries(
      measured.map(({ measure, middle }) => {
        const value = take[measure];
        return [measure, middle === null || value === null ? null : robustScore(value, middle)];
      }),
    ) as Record<Measure, number | null>;
    return {
      take: take.id,
      title: take.title,
      player: take.player,
      values: Object.fromEntries(MEASURES.map((name) => [name, take[name]])) as Record<
        Measure,
        number | null
      >,
      scores,
      furthest: Math.max(0, ...Object.values(scores).map((score) => Math.abs(score ?? 0))),
    };
  });
  rows.sort((a, b) => b.furthest - a.furthest);
  return {
    takes: takes.length,
    limit: STANDS_APART,
    apart: rows.filter((row) => row.furthest > STANDS_APART).length,
    measures: measured.map(({ measure, values, middle }) => ({
      measure,
      takes: values.length,
      median: middle?.median ?? null,
      deviation: middle?.deviation ?? null,
      bins: binsOf(values),
    })),
    rows: rows.slice(0, limit),
  };
}

/** Number of bins after Sturges 1926: one more than the binary logarithm of the number of values. */
function binsOf(values: readonly number[]): { from: number; to: number; takes: number }[] {
  if (values.length === 0) return [];
  const low = values.reduce((a, b) => Math.min(a, b));
  const high = values.reduce((a, b) => Math.max(a, b));
  if (low === high) return [{ from: low, to: high, takes: values.length }];
  const n = Math.ceil(Math.log2(values.length)) + 1;
  const step = (high - low) / n;
  const bins = Array.from({ length: n }, (_, i) => ({
    from: low + i * step,
    to: i === n - 1 ? high : low + (i + 1) * step,
    takes: 0,
  }));
  for (const value of values) bins[Math.min(n - 1, Math.floor((value - low) / step))]!.takes++;
  return bins;
}
