/** Sources as they are stored, and recordings of sound that a teacher chose to keep beside the notes heard in them. */
import type { Queryable } from "./database.ts";

export interface KeptSound {
  readonly fileName: string;
  readonly bytes: Uint8Array;
}

/** What a source is read by, from `sources s`; `wholeSource` makes its bytes of it. */
export const SOURCE_COLUMNS = `s.sha256, s.bytes, s.size`;
/** Bytes of a source in SQL. */
export const SOURCE_SIZE = `coalesce(s.size, octet_length(s.bytes))`;

export interface StoredSource {
  readonly sha256: string;
  /** All of it, unless it is kept in pieces. */
  readonly bytes: Uint8Array;
  /** Number of its bytes where it is kept in pieces, null otherwise. */
  readonly size: number | null;
}

/**
 * Bytes of a piece. A larger source is written and read in pieces: a statement that holds one whole takes several times
 * its size in the store, and the embedded one gives no memory back.
 */
export const PIECE = 2 ** 20;

/** Bytes that are not in memory whole. */
export interface PiecedBytes {
  readonly size: number;
  /** Of `PIECE` bytes each but the last; one is used before the next is asked for. */
  pieces(): AsyncIterable<Uint8Array> | Iterable<Uint8Array>;
}

export type Content = Uint8Array | PiecedBytes;

/** Writes a source unless it is there; inside a transaction. */
export async function insertSource(inside: Queryable, sha256: string, content: Content): Promise<void> {
  const whole = content instanceof Uint8Array && content.length <= PIECE ? content : null;
  const large = content instanceof Uint8Array ? inPieces(content) : content;
  const written = await inside.query(
    "insert into sources (sha256, bytes, size) values ($1, $2, $3) on conflict do nothing returning 1",
    [sha256, whole ?? new Uint8Array(), whole === null ? large.size : null],
  );
  if (whole !== null || written.length === 0) return;
  let place = 0;
  for await (const piece of large.pieces()) {
    await inside.query("insert into source_pieces (source, place, bytes) values ($1, $2, $3)", [
      sha256,
      place++,
      piece,
    ]);
  }
}

function inPieces(bytes: Uint8Array): PiecedBytes {
  return {
    size: bytes.length,
    *pieces() {
      for (let at = 0; at < bytes.length; at += PIECE) yield bytes.subarray(at, at + PIECE);
    },
  };
}

export async function wholeSource(
  database: Queryable,
  { sha256, bytes, size }: StoredSource,
): Promise<Uint8Array> {
  if (size === null) return bytes;
  const whole = new Uint8Array(size);
  for (let place = 0; place * PIECE < size; place++) {
    const [piece] = await database.query<{ bytes: Uint8Array }>(
      "select bytes from source_pieces where source = $1 and place = $2",
      [sha256, place],
    );
    if (piece === undefined) throw new Error(`source ${sha256} has lost a piece`);
    whole.set(piece.bytes, place * PIECE);
  }
  return whole;
}

/** The bytes that a take is analysed from, or null when there is no such take. */
export async function findSource(database: Queryable, takeId: string): Promise<Uint8Array | null> {
  const rows = await database.query<StoredSource>(
    `select ${SOURCE_COLUMNS} from takes t join sources s on s.sha256 = t.source
     where t.id = $1 and t.deleted_at is null`,
    [takeId],
  );
  return rows[0] === undefined ? null : wholeSource(database, rows[0]);
}

/** Puts what was heard in a recording in its place: the recording goes when nothing refers to it any more. */
export async function replaceSource(
  inside: Queryable,
  id: string,
  source: string,
  bytes: Uint8Array,
): Promise<void> {
  await insertSource(inside, source, bytes);
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
