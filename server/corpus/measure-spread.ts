/** How each measure is spread over the takes of a corpus, and which takes stand apart in it. */
import { z } from "zod";
import type { Database } from "../store/database.ts";
import { type Filter, MEANT, meantValues } from "./filter.ts";
import { middleOf, robustScore, STANDS_APART } from "./robust-score.ts";
import { MEASURES } from "./summary.ts";

const perMeasure = z.record(z.enum(MEASURES), z.number().nullable());

export const measureSpreadsSchema = z.object({
  takes: z.int(),
  /** A score beyond this, above or below, stands apart. */
  limit: z.number(),
  /** Number of takes that stand apart in a measure at least. */
  apart: z.int(),
  measures: z.array(
    z.object({
      measure: z.enum(MEASURES),
      takes: z.int(),
      /** Null where too few takes have this measure. */
      median: z.number().nullable(),
      deviation: z.number().nullable().describe("median absolute deviation from the median"),
      /** Equal steps from the least to the greatest value; a value on an edge counts in the upper bin. */
      bins: z.array(z.object({ from: z.number(), to: z.number(), takes: z.int() })),
    }),
  ),
  /** The takes that are furthest from the middle, the furthest first. */
  rows: z.array(
    z.object({
      take: z.string(),
      title: z.string(),
      player: z.string().nullable(),
      values: perMeasure,
      scores: perMeasure.describe("robust z-scores"),
      furthest: z.number().describe("the greatest score without its sign"),
    }),
  ),
});

export type MeasureSpreads = z.infer<typeof measureSpreadsSchema>;
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
