/** Which takes of a corpus are meant. One filter serves summaries, tables, searches and comparisons. */
import { z } from "zod";

export const filterFields = z.object({
  player: z.string().max(200).optional().describe("name of the player"),
  tag: z.string().max(100).optional(),
  key: z.string().max(20).optional(),
  chart: z.string().max(200).optional().describe("name of the chart"),
  method: z.string().max(20).optional(),
  from: z.iso.date().optional().describe("played on this day or later"),
  to: z.iso.date().optional(),
  slowest: z.coerce.number().min(0).optional().describe("quarter notes a minute"),
  fastest: z.coerce.number().min(0).optional(),
});

export type Filter = z.infer<typeof filterFields>;

/** FROM and WHERE of the takes meant; values are $1 to $10, whichever are given. */
export const MEANT = `from takes t join analyses a on a.key = t.analysis
    left join players p on p.id = t.player_id and p.deleted_at is null
  where t.corpus_id = $1 and t.deleted_at is null
    and ($2::text is null or lower(p.name) = lower($2)) and ($3::text is null or $3 = any(t.tags))
    and ($4::text is null or a.facts->>'key' = $4) and ($5::text is null or a.facts->>'chartName' = $5)
    and ($6::text is null or a.facts->>'method' = $6)
    and ($7::date is null or t.played_on >= $7) and ($8::date is null or t.played_on <= $8)
    and ($9::float8 is null or (a.facts->>'tempo')::float8 >= $9)
    and ($10::float8 is null or (a.facts->>'tempo')::float8 <= $10)`;

export function meantValues(corpus: string, filter: Filter): unknown[] {
  const { player, tag, key, chart, method, from, to, slowest, fastest } = filter;
  return [corpus, player, tag, key, chart, method, from, to, slowest, fastest].map((value) => value ?? null);
}
