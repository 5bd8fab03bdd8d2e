/** What was deleted and has not gone for good: takes that stand alone, and players with all of theirs. */
import type { DeletedOne } from "../contract/deleted.ts";
import type { Queryable } from "./database.ts";
import { UNDO_MINUTES } from "./purge.ts";

const written = (moment: string): string =>
  `to_char((${moment}) at time zone 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS"Z"')`;

/**
 * The last deleted first. A take that went with its player comes back with it, and is counted there.
 *
 * @param players ids of players within reach; null for all, and for takes of nobody
 */
export function listDeleted(
  database: Queryable,
  players: readonly string[] | null,
): Promise<readonly DeletedOne[]> {
  return database.query<DeletedOne>(
    `with gone as (
       select 'take' as kind, t.id, t.title as name, p.name as player, 1 as takes, t.deleted_at as at
       from takes t left join players p on p.id = t.player_id
       where t.deleted_at is not null and t.corpus_id is null and t.deleted_at is distinct from p.deleted_at
         and ($1::text[] is null or t.player_id = any($1))
       union all
       select 'player', p.id, p.name, null,
         (select count(*)::int from takes t where t.player_id = p.id and t.deleted_at = p.deleted_at), p.deleted_at
       from players p where p.deleted_at is not null and ($1::text[] is null or p.id = any($1)))
     select kind, id, name, player, takes, ${written("at")} as "deletedAt",
       ${written("at + make_interval(mins => $2)")} as "goesAt"
     from gone order by at desc, name, id`,
    [players, UNDO_MINUTES],
  );
}
