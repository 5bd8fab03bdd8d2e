/** What a player's page holds: the usual, consent, what they work on since when, notes for the parents. */
import { randomUUID } from "node:crypto";
import type { Lens } from "../../src/account.ts";
import type { PlayerPage, Usual } from "../contract/player-page.ts";
import type { Database, Queryable } from "./database.ts";
import { markErasure } from "./erase.ts";

/** What a player works on from a day on; a lens of null is a time without one. */
export type LensSince = PlayerPage["lenses"][number];
type ParentNote = PlayerPage["notes"][number];

export async function findPlayerPage(database: Queryable, id: string): Promise<PlayerPage | null> {
  const [player] = await database.query<Omit<PlayerPage, "lenses" | "notes">>(
    "select id, name, note, usual, consent from players where id = $1 and deleted_at is null",
    [id],
  );
  if (player === undefined) return null;
  const notes = await database.query<ParentNote>(
    `select id, to_char(written_on, 'YYYY-MM-DD') as date, text from player_notes where player_id = $1
     order by written_on desc, created_at desc`,
    [id],
  );
  return { ...player, lenses: await lensesOf(database, id), notes };
}

export function lensesOf(database: Queryable, playerId: string): Promise<LensSince[]> {
  return database.query<LensSince>(
    `select to_char(since, 'YYYY-MM-DD') as since, lens from player_lenses where player_id = $1 order by since`,
    [playerId],
  );
}

/** The lens in force on a day; null before the first and where none was wanted. */
export function lensOn(lenses: readonly LensSince[], day: string): Lens | null {
  return lenses.filter(({ since }) => since <= day).at(-1)?.lens ?? null;
}

/** What is left out stays as it is; null takes a consent back. */
export async function changePlayerPage(
  database: Queryable,
  id: string,
  change: { readonly usual?: Usual | undefined; readonly consent?: PlayerPage["consent"] | undefined },
): Promise<void> {
  if (change.usual !== undefined) {
    await database.query("update players set usual = $2::jsonb where id = $1", [
      id,
      JSON.stringify(change.usual),
    ]);
  }
  if (change.consent !== undefined) {
    await database.query("update players set consent = $2::jsonb where id = $1", [
      id,
      change.consent === null ? null : JSON.stringify(change.consent),
    ]);
  }
}

/** From `since` on; another lens of that day gives way. */
export async function setLens(database: Queryable, playerId: string, { since, lens }: LensSince) {
  await database.query(
    `insert into player_lenses (player_id, since, lens) values ($1, $2::date, $3::jsonb)
     on conflict (player_id, since) do update set lens = excluded.lens`,
    [playerId, since, lens === null ? null : JSON.stringify(lens)],
  );
}

export async function removeLens(database: Queryable, playerId: string, since: string): Promise<boolean> {
  const rows = await database.query(
    "delete from player_lenses where player_id = $1 and since = $2::date returning since",
    [playerId, since],
  );
  return rows.length > 0;
}

export async function addNote(
  database: Queryable,
  playerId: string,
  { date, text }: Omit<ParentNote, "id">,
): Promise<void> {
  await database.query(
    "insert into player_notes (id, player_id, written_on, text) values ($1, $2, $3::date, $4)",
    [randomUUID(), playerId, date, text],
  );
}

export async function removeNote(database: Queryable, playerId: string, id: string): Promise<boolean> {
  const rows = await database.query(
    "delete from player_notes where player_id = $1 and id = $2 returning id",
    [playerId, id],
  );
  if (rows.length > 0) await markErasure(database);
  return rows.length > 0;
}

/**
 * Makes one player of two: takes, notes, lenses and what waits in jobs go to `into`, whose own lens of a day, usual
 * things and consent stay, and fill up from the other. The other player is gone afterwards. Tokens are left as they
 * are: who could see the one sees no more of the other than before.
 */
export async function mergePlayers(database: Database, from: string, into: string): Promise<void> {
  await database.transaction(async (inside) => {
    await inside.query("update takes set player_id = $2 where player_id = $1", [from, into]);
    await inside.query("update player_notes set player_id = $2 where player_id = $1", [from, into]);
    await inside.query("update lessons set player_id = $2 where player_id = $1", [from, into]);
    await inside.query(
      `insert into player_lenses (player_id, since, lens)
       select $2, since, lens from player_lenses where player_id = $1 on conflict do nothing`,
      [from, into],
    );
    await inside.query(
      `update items i set player = k.name from players p, players k
       where p.id = $1 and k.id = $2 and lower(i.player) = lower(p.name)`,
      [from, into],
    );
    await inside.query(
      `update players k set usual = p.usual || k.usual, consent = coalesce(k.consent, p.consent),
         note = concat_ws(E'\\n', nullif(k.note, ''), nullif(p.note, ''))
       from players p where p.id = $1 and k.id = $2`,
      [from, into],
    );
    await inside.query("delete from players where id = $1", [from]);
    await markErasure(inside);
  });
}
