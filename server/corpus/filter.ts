/** Which takes of a corpus are meant, as SQL. */
import type { Filter } from "../contract/filter.ts";

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

/**
 * The order of a corpus's takes: by what was played, so that tables, hits and random draws are the same whenever, in
 * whichever order and on whichever machine the same files came.
 */
export const ORDER = "t.source, t.analysis, t.id";

/** The takes of a page after another in that order; `n` is the number of the first of three values. */
export function after(n: number): string {
  return `(t.source, t.analysis, t.id) > ($${n}, $${n + 1}, $${n + 2})`;
}

/** The place of a take in that order; before all others to begin with. */
export interface Place {
  readonly source: string;
  readonly key: string;
  readonly take: string;
}

export const BEGIN: Place = { source: "", key: "", take: "" };

export function placeValues({ source, key, take }: Place): unknown[] {
  return [source, key, take];
}

export function meantValues(corpus: string, filter: Filter): unknown[] {
  const { player, tag, key, chart, method, from, to, slowest, fastest } = filter;
  return [corpus, player, tag, key, chart, method, from, to, slowest, fastest].map((value) => value ?? null);
}
