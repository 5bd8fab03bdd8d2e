/** Sources as they are stored, and recordings of sound that a teacher chose to keep beside the notes heard in them. */
import type { Queryable } from "./database.ts";

export interface KeptSound {
  readonly fileName: string;
  readonly bytes: Uint8Array;
}

/** The bytes that a take is analysed from, or null when there is no such take. */
export async function findSource(database: Queryable, takeId: string): Promise<Uint8Array | null> {
  const rows = await database.query<{ bytes: Uint8Array }>(
    `select s.bytes from takes t join sources s on s.sha256 = t.source where t.id = $1 and t.deleted_at is null`,
    [takeId],
  );
  return rows[0]?.bytes ?? null;
}

/** Puts what was heard in a recording in its place: the recording goes when nothing refers to it any more. */
export async function replaceSource(
  inside: Queryable,
  id: string,
  source: string,
  bytes: Uint8Array,
): Promise<void> {
  await inside.query("insert into sources (sha256, bytes) values ($1, $2) on conflict do nothing", [
    source,
    bytes,
  ]);
  await inside.query("update items set source = $2 where id = $1", [id, source]);
}

/** Keeps the sound of a take in place of any that was kept before. */
export async function keepSound(database: Queryable, takeId: string, sound: KeptSound): Promise<void> {
  await database.query(
    `insert into sounds (take_id, file_name, bytes) values ($1, $2, $3)
     on conflict (take_id) do update set file_name = excluded.file_name, bytes = excluded.bytes`,
    [takeId, sound.fileName, sound.bytes],
  );
}

export async function findSound(database: Queryable, takeId: string): Promise<KeptSound | null> {
  const rows = await database.query<KeptSound>(
    `select s.file_name as "fileName", s.bytes from sounds s join takes t on t.id = s.take_id
     where s.take_id = $1 and t.deleted_at is null`,
    [takeId],
  );
  return rows[0] ?? null;
}

/** False when none was kept. */
export async function forgetSound(database: Queryable, takeId: string): Promise<boolean> {
  const rows = await database.query("delete from sounds where take_id = $1 returning take_id", [takeId]);
  return rows.length > 0;
}
