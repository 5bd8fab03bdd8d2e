/** Takes as they are looked for: by what is typed, by player, tag or file, sorted, a page at a time. */
import type { Queryable } from "./database.ts";
import { type StoredTake, TAKE_COLUMNS, TAKES } from "./takes.ts";

/** What takes are sorted by: rows that order them fully, so that a page can go on after a take. */
const SORTS = {
  newest: { by: "coalesce(t.played_on, '-infinity'::date), t.created_at, t.id", direction: "desc" },
  oldest: { by: "coalesce(t.played_on, 'infinity'::date), t.created_at, t.id", direction: "asc" },
  title: { by: "lower(t.title), t.created_at, t.id", direction: "asc" },
  player: { by: "p.name is null, lower(coalesce(p.name, '')), lower(t.title), t.id", direction: "asc" },
} as const;

export type TakeSort = keyof typeof SORTS;

/** What takes must have to be listed; null and undefined ask for nothing. */
export interface TakeFilter {
  readonly playerId?: string | undefined;
  readonly tag?: string | undefined;
  /** Words, each of which stands in the player, the title, the chart, its key, the date or a tag, in whatever case. */
  readonly q?: string | undefined;
  /** SHA-256 of the file that its notes were read from. */
  readonly source?: string | undefined;
  readonly demo?: boolean | undefined;
  /** Players whose takes are within reach; null for all. */
  readonly players?: readonly string[] | null;
  /** Takes within reach; null for all. */
  readonly takes?: readonly string[] | null;
}

export interface TakePage {
  readonly takes: readonly StoredTake[];
  /** All that the filter leaves, on this page or not. */
  readonly total: number;
  /** Id of the take that the next page goes on after; null on the last one. */
  readonly next: string | null;
}

const WHERE = `t.deleted_at is null and t.corpus_id is null
  and ($1::text is null or t.player_id = $1) and ($2::text is null or $2 = any(t.tags))
  and ($3::text is null or t.source = $3) and ($4::boolean is null or t.demo = $4)
  and ($5::text[] is null or t.player_id = any($5)) and ($6::text[] is null or t.id = any($6))
  and not exists (select 1 from unnest($7::text[]) word where strpos(lower(concat_ws(' ',
    p.name, t.title, a.facts ->> 'chartName', a.facts ->> 'key', to_char(t.played_on, 'YYYY-MM-DD'),
    to_char(t.played_on, 'FMDD FMMonth YYYY'), array_to_string(t.tags, ' '))), word) = 0)`;

/**
 * One page of the takes that stand alone. What is typed is looked for in every row that the other conditions leave:
 * under half a second for 10,000 takes in the embedded store, so that no index of words has to be kept.
 *
 * @param after id of the last take of the page before; null for the first page
 * @param limit most takes of a page; null for all
 * @returns null when `after` is no take that there is or was
 */
export async function pageOfTakes(
  database: Queryable,
  filter: TakeFilter,
  sort: TakeSort,
  { after, limit }: { readonly after: string | null; readonly limit: number | null },
): Promise<TakePage | null> {
  if (after !== null && !(await isTake(database, after))) return null;
  const { by, direction } = SORTS[sort];
  const values = [
    ...[filter.playerId ?? null, filter.tag ?? null, filter.source ?? null, filter.demo ?? null],
    ...[filter.players ?? null, filter.takes ?? null, wordsOf(filter.q ?? "")],
  ];
  // What is typed is looked for once, for the page and for the number of all. One more than the page holds tells
  // whether another page follows.
  const rows = await database.query<StoredTake & { readonly total: number }>(
    `with found as materialized (select t.id, row(${by}) as place ${TAKES} where ${WHERE}),
     page as (select id, place from found where $8::text is null or place ${direction === "asc" ? ">" : "<"}
       (select row(${by}) from takes t left join players p on p.id = t.player_id and p.deleted_at is null where t.id = $8)
       order by place ${direction} limit $9)
     select ${TAKE_COLUMNS}, (select count(*)::int from found) as total ${TAKES} join page on page.id = t.id
     order by page.place ${direction}`,
    [...values, after, limit === null ? null : limit + 1],
  );
  const takes = rows.slice(0, limit ?? rows.length).map(({ total: _ofAll, ...take }) => take);
  const next = takes.length < rows.length ? takes.at(-1)!.id : null;
  return { takes, next, total: rows[0]?.total ?? (after === null ? 0 : await countOf(database, values)) };
}

/** All takes that stand alone and that the filter leaves, newest first. */
export async function listTakes(database: Queryable, filter: TakeFilter): Promise<readonly StoredTake[]> {
  const page = await pageOfTakes(database, filter, "newest", { after: null, limit: null });
  return page?.takes ?? [];
}

async function isTake(database: Queryable, id: string): Promise<boolean> {
  return (await database.query("select 1 from takes where id = $1", [id])).length > 0;
}

async function countOf(database: Queryable, values: readonly unknown[]): Promise<number> {
  const rows = await database.query<{ total: number }>(
    `select count(*)::int as total ${TAKES} where ${WHERE}`,
    values,
  );
  return rows[0]!.total;
}

function wordsOf(typed: string): string[] {
  return typed.toLowerCase().split(/\s+/).filter(Boolean);
}
