/**
 * Deleted rows leave the files too. A database marks a row as gone and keeps its bytes: in the table until the space is
 * used again, and in the log until that is written over. For data of persons that is not enough, so the tables are
 * written anew without them and the log is cut.
 */
import { randomUUID } from "node:crypto";
import type { Database, Queryable } from "./database.ts";
import { DiskFull, LEAST_ROOM } from "./room.ts";

/** A mark for each deletion whose bytes may still be in the files; it outlives the process. */
const MARK = "to erase ";

/** Notes that something of a person went, in the transaction in which it goes. */
export async function markErasure(inside: Queryable): Promise<void> {
  await inside.query("insert into marks (name) values ($1)", [`${MARK}${randomUUID()}`]);
}

/**
 * Writes all tables anew when something of a person went since the last time. Each table is locked meanwhile, for as
 * long as its living rows take to write. On a PostgreSQL server the log is cut only where the role may do so (a
 * superuser, or `pg_checkpoint`), and leaves no bytes behind with the server's setting `wal_recycle = off`.
 *
 * @param tell told what the server did not allow
 * @returns whether there was anything to do
 */
export async function eraseDeleted(database: Database, tell: (error: unknown) => void): Promise<boolean> {
  const marks = await database.query<{ name: string }>("select name from marks where starts_with(name, $1)", [
    MARK,
  ]);
  if (marks.length === 0) return false;
  const tables = await database.query<{ name: string; bytes: number }>(
    `select quote_ident(tablename) as name, pg_total_relation_size(quote_ident(tablename)::regclass)::float8 as bytes
     from pg_tables where schemaname = 'public' order by 1`,
  );
  for (const { name, bytes } of tables) {
    // It is written to the log and to its new file; the marks stay for a time when there is room.
    if ((database.room() ?? Number.POSITIVE_INFINITY) < LEAST_ROOM + 2 * bytes) {
      tell(new DiskFull());
      return false;
    }
    await database.script(`vacuum full ${name}`);
  }
  // A deletion that was marked meanwhile is for the next time.
  await database.query("delete from marks where name = any($1::text[])", [marks.map(({ name }) => name)]);
  for (const statement of [
    // Samples of values stood in the statistics of stores from before.
    "vacuum full pg_statistic",
    "checkpoint",
    "select pg_switch_wal()",
    "checkpoint",
  ]) {
    await database.script(statement).catch(tell);
  }
  return true;
}
