/** What is deleted goes for good once it cannot be undone any more, and what is old goes by itself. */
import type { Database } from "./database.ts";
import { markErasure } from "./erase.ts";

/** How long a deletion can be undone, in minutes. */
export const UNDO_MINUTES = 30;

/** How many backups of a store are on their way: nothing that they may still read goes for good. */
const held = new WeakMap<Database, number>();

/** @returns what lets things go for good again */
export function whilePurgeWaits(database: Database): () => void {
  held.set(database, (held.get(database) ?? 0) + 1);
  return () => held.set(database, held.get(database)! - 1);
}

/** Removes for good what was deleted longer ago than `minutes`, with sources and analyses that nothing uses. */
export async function purgeDeleted(database: Database, minutes: number): Promise<void> {
  if ((held.get(database) ?? 0) > 0) return;
  await database.transaction(async (inside) => {
    const before = `now() - make_interval(mins => $1)`;
    let rows = 0;
    const remove = async (text: string, values: readonly unknown[] = [minutes]) => {
      rows += (await inside.query(`${text} returning 1`, values)).length;
    };
    await remove(`delete from takes where deleted_at < ${before}`);
    // Items of jobs hold a name and a recording too: those whose take is gone, and whatever came under the name of a
    // player who goes now and whom no other player is called like.
    await remove(
      `delete from items i where (i.state = 'done' and not exists (select 1 from takes t where t.id = i.id))
         or (lower(i.player) in (select lower(name) from players where deleted_at < ${before})
           and not exists (select 1 from players p where lower(p.name) = lower(i.player) and p.deleted_at is null)
           and not exists (select 1 from takes t where t.id = i.id))`,
    );
    await remove(
      `delete from players p where deleted_at < ${before} and not exists (select 1 from takes t where t.player_id = p.id)`,
    );
    await remove(
      `delete from corpora c where deleted_at < ${before} and not exists (select 1 from takes t where t.corpus_id = c.id)`,
    );
    for (const kind of ["charts", "shapes", "ideas", "lenses"]) {
      await remove(`delete from ${kind} where deleted_at < ${before}`);
    }
    // A link to a take that is gone opens nothing and is not kept.
    await remove(
      `delete from tokens where role = 'reader' and cardinality(scope) > 0
         and not exists (select 1 from takes t where t.id = any(scope))`,
      [],
    );
    await remove(
      `delete from tokens where role = 'student' and not exists (select 1 from players p where p.id = any(scope))`,
      [],
    );
    // An account that was made anew leaves an old one behind: no reason to write every table anew.
    await inside.query(
      "delete from analyses a where not exists (select 1 from takes t where t.analysis = a.key)",
    );
    await inside.query(
      `delete from sources s where not exists (select 1 from takes t where t.source = s.sha256)
         and not exists (select 1 from items i where i.source = s.sha256)`,
    );
    if (rows > 0) await markErasure(inside);
  });
}

/**
 * Deletes takes of players that were kept longer ago than `days`, what of jobs is as old and did not become a take, and
 * players of whom nothing newer is held. What is not under a player's name is left: it is of no person that the
 * service knows. The demo class stays.
 */
export async function deleteOld(database: Database, days: number): Promise<void> {
  await database.transaction(async (inside) => {
    const old = `now() - make_interval(days => $1)`;
    await inside.query(
      `update takes set deleted_at = now()
       where deleted_at is null and player_id is not null and not demo and created_at < ${old}`,
      [days],
    );
    const items = await inside.query(
      `delete from items i using jobs j where j.id = i.job_id and j.created_at < ${old} and i.player is not null
         and i.state in ('failed', 'cancelled') returning 1`,
      [days],
    );
    await inside.query(
      `update players p set deleted_at = now() where p.deleted_at is null and p.created_at < ${old}
         and not exists (select 1 from takes t where t.player_id = p.id and t.deleted_at is null)
         and not exists (select 1 from items i where lower(i.player) = lower(p.name) and i.state = 'waiting')
         and not exists (select 1 from player_notes n where n.player_id = p.id and n.created_at >= ${old})
         and not exists (select 1 from lessons l where l.player_id = p.id and l.created_at >= ${old})`,
      [days],
    );
    if (items.length > 0) await markErasure(inside);
  });
}
