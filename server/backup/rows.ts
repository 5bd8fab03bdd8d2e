/** Rows as text, the same on both stores: JSON as the store itself writes it, bytes in hexadecimal digits. */
import type { Queryable } from "../store/database.ts";
import type { CopiedTable } from "./tables.ts";

/** Most rows of one statement, and of large tables most keys. */
const ROWS = 500;
const KEYS = 20;

/** Times are written in UTC whatever the session says; needed before rows are read. */
export async function inUtc(inside: Queryable): Promise<void> {
  await inside.query("set local timezone to 'UTC'");
}

/** All rows of a table in order, a page at a time; inside a transaction. */
export async function* rowsOf(inside: Queryable, table: CopiedTable): AsyncGenerator<readonly string[]> {
  if (table.content !== undefined) {
    const keys = await keysOf(inside, table);
    for (const part of parts(table, keys)) yield await rowsOfKeys(inside, table, part);
    return;
  }
  await inside.query(
    `declare rows_to_copy no scroll cursor for
     select row_to_json(t)::text as row from ${table.name} t order by ${orderOf(table)}`,
  );
  for (;;) {
    const rows = await inside.query<{ row: string }>(`fetch ${ROWS} from rows_to_copy`);
    if (rows.length === 0) break;
    yield rows.map(({ row }) => row);
  }
  await inside.query("close rows_to_copy");
}

/** The rows of these keys of a large table, in order. */
export async function rowsOfKeys(
  inside: Queryable,
  table: CopiedTable,
  keys: readonly string[],
): Promise<readonly string[]> {
  const rows = await inside.query<{ row: string }>(
    `select row_to_json(t)::text as row from ${table.name} t where ${table.content} = any($1::text[])
     order by ${orderOf(table)}`,
    [[...keys]],
  );
  return rows.map(({ row }) => row);
}

/** The keys of a large table, in order, each once. */
export async function keysOf(inside: Queryable, table: CopiedTable): Promise<readonly string[]> {
  const rows = await inside.query<{ key: string }>(
    `select key from (select distinct ${table.content} collate "C" as key from ${table.name}) k order by key`,
  );
  return rows.map(({ key }) => key);
}

/** The keys of a table in parts, each for one statement. */
export function parts(
  { keysAtOnce = KEYS }: CopiedTable,
  keys: readonly string[],
): readonly (readonly string[])[] {
  return Array.from({ length: Math.ceil(keys.length / keysAtOnce) }, (_, i) =>
    keys.slice(i * keysAtOnce, (i + 1) * keysAtOnce),
  );
}

/** By bytes, since the order of letters differs between stores. */
function orderOf({ order }: CopiedTable): string {
  return order.map((column) => `${column}::text collate "C"`).join(", ");
}
