/** Deleting a player takes their recordings and accounts along: a player may be a minor. */
import type { Queryable } from "./database.ts";
import { SOURCE_COLUMNS, type StoredSource, wholeSource } from "./sources.ts";

/**
 * Hides the player and all their takes with one time stamp, by which `restorePlayer` knows what belongs together. What
 * waits in jobs under the player's name is not analysed any more, or the player would come back with it.
 */
export async function deletePlayer(database: Queryable, id: string): Promise<boolean> {
  const rows = await database.query(
    `with gone as (update players set deleted_at = now() where id = $1 and deleted_at is null returning id, name, deleted_at),
       takes_gone as (update takes t set deleted_at = gone.deleted_at from gone
         where t.player_id = gone.id and t.deleted_at is null),
       items_gone as (update items i set state = 'cancelled', finished_at = now() from gone
         where i.state = 'waiting' and lower(i.player) = lower(gone.name))
     select id from gone`,
    [id],
  );
  return rows.length > 0;
}

export async function restorePlayer(database: Queryable, id: string): Promise<boolean> {
  const rows = await database.query(
    `with old as (select id, deleted_at from players where id = $1 and deleted_at is not null),
       takes_back as (update takes t set deleted_at = null from old
         where t.player_id = old.id and t.deleted_at = old.deleted_at),
       back as (update players p set deleted_at = null from old where p.id = old.id returning p.id)
     select id from back`,
    [id],
  );
  return rows.length > 0;
}

/** Takes of a player, whether they stand alone or in a corpus, oldest first. */
export function takesOfPlayer(database: Queryable, id: string): Promise<{ readonly id: string }[]> {
  return database.query(
    "select id from takes where player_id = $1 and deleted_at is null order by played_on, id",
    [id],
  );
}

/** Links to takes of a player, without what they open with. */
export function linksOfPlayer(database: Queryable, id: string): Promise<Record<string, unknown>[]> {
  return database.query(
    `select k.id, k.name, k.scope as takes, k.role, k.created_at as "createdAt", k.ended_at as "endedAt" from tokens k
     where (k.role = 'reader' and exists (select 1 from takes t where t.player_id = $1 and t.id = any(k.scope)))
       or (k.role = 'student' and k.scope = array[$1])
     order by k.created_at`,
    [id],
  );
}

/** What came in jobs under a player's name and has not become a take, with its file. */
export async function itemsOfPlayer(
  database: Queryable,
  name: string,
): Promise<
  {
    readonly id: string;
    readonly fileName: string;
    readonly source: Uint8Array | null;
    readonly state: string;
  }[]
> {
  const rows = await database.query<
    { id: string; fileName: string; state: string } & (StoredSource | Record<keyof StoredSource, null>)
  >(
    `select i.id, i.file_name as "fileName", i.title, to_char(i.played_on, 'YYYY-MM-DD') as date, i.tags,
       i.chart_text as "chartText", i.state, i.problem, ${SOURCE_COLUMNS}
     from items i left join sources s on s.sha256 = i.source
     where lower(i.player) = lower($1) and i.state <> 'done' order by i.id`,
    [name],
  );
  return Promise.all(
    rows.map(async ({ sha256, bytes, size, ...item }) => ({
      ...item,
      source: sha256 === null ? null : await wholeSource(database, { sha256, bytes, size }),
    })),
  );
}
