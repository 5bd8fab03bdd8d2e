/** Deleting a player takes their recordings and accounts along: a player may be a minor. */
import type { Queryable } from "./database.ts";

/** Hides the player and all their takes with one time stamp, by which `restorePlayer` knows what belongs together. */
export async function deletePlayer(database: Queryable, id: string): Promise<boolean> {
  const rows = await database.query(
    `with gone as (update players set deleted_at = now() where id = $1 and deleted_at is null returning id, deleted_at),
       takes_gone as (update takes t set deleted_at = gone.deleted_at from gone
         where t.player_id = gone.id and t.deleted_at is null)
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
