/**
 * Writes all that a store holds as lines, while it is at work: a heading, a line for each row, and an end with the
 * number and hash of the rows of each table and the hash of all lines before it.
 */
import { createHash } from "node:crypto";
import { ANALYSIS_VERSION } from "../../src/analyse.ts";
import type { Database, Queryable } from "../store/database.ts";
import { STEP_COUNT } from "../store/migrations.ts";
import { whilePurgeWaits } from "../store/purge.ts";
import { inUtc, keysOf, parts, rowsOf, rowsOfKeys } from "./rows.ts";
import { CONTENT, COPIED, type CopiedTable, NOT_COPIED, RECORDS, SOUNDS } from "./tables.ts";

export const FORMAT = "ledgerline-backup";
export const FORMAT_VERSION = 1;

/** Number and hash of the rows of a table: SHA-256 of their lines, in order. */
export interface Count {
  readonly rows: number;
  readonly sha256: string;
}

export type Counts = Readonly<Record<string, Count>>;

/** Rows of a table, some at a time. */
type Pages = AsyncIterable<readonly string[]> | Iterable<readonly string[]>;
type Section = readonly [table: CopiedTable, pages: Pages];

/** The lines of a backup, each with its end. What is deleted meanwhile stays in the store until the last one. */
export async function* backupLines(database: Database): AsyncGenerator<string> {
  const whole = createHash("sha256");
  const heading = { format: FORMAT, version: FORMAT_VERSION, steps: STEP_COUNT, analysis: ANALYSIS_VERSION };
  const first = `${JSON.stringify(heading)}\n`;
  whole.update(first);
  yield first;
  const counts: Record<string, Count> = {};
  await refuseToLeaveOut(database);
  const hold = whilePurgeWaits(database);
  const read = await openMoment(database);
  try {
    for await (const [table, pages] of read.sections) {
      const tally = tallying();
      for await (const page of pages) {
        if (page.length === 0) continue;
        tally.add(page);
        const lines = page.map((row) => `${table.name} ${row}\n`).join("");
        whole.update(lines);
        yield lines;
      }
      counts[table.name] = tally.count();
    }
  } finally {
    await read.end();
    hold();
  }
  yield `${JSON.stringify({ tables: counts, sha256: whole.digest("hex") })}\n`;
}

/** A table that nobody has said how to copy would be missed only when the backup is needed. */
async function refuseToLeaveOut(database: Database): Promise<void> {
  const known = [...COPIED.map(({ name }) => name), ...NOT_COPIED];
  const rows = await database.query<{ name: string }>(
    "select tablename as name from pg_tables where schemaname = 'public' and not tablename = any($1::text[])",
    [known],
  );
  if (rows.length > 0) throw new Error(`no backup is known of the table ${rows[0]!.name}`);
}

/** Counts rows and hashes them as they come. */
export function tallying(): { add(rows: readonly string[]): void; count(): Count } {
  const hash = createHash("sha256");
  let rows = 0;
  return {
    add: (page) => {
      rows += page.length;
      for (const row of page) hash.update(row).update("\n");
    },
    count: () => ({ rows, sha256: hash.digest("hex") }),
  };
}

interface Moment {
  readonly sections: AsyncIterable<Section> | Iterable<Section>;
  end(): Promise<void>;
}

function openMoment(database: Database): Promise<Moment> {
  return database.kind === "server" ? serverMoment(database) : embeddedMoment(database);
}

/** A PostgreSQL server keeps the moment for whoever reads it, however long that takes. */
async function serverMoment(database: Database): Promise<Moment> {
  const { inside, end } = await database.snapshot!();
  await inUtc(inside);
  const tables = [...CONTENT, ...RECORDS, SOUNDS];
  return { sections: tables.map((table) => [table, rowsOf(inside, table)] as const), end };
}

/**
 * The embedded store answers one at a time. Its records are read at one go; what they refer to never changes and is
 * read afterwards, a piece between other requests.
 */
async function embeddedMoment(database: Database): Promise<Moment> {
  const { keys, records } = await database.transaction(async (inside) => {
    await inUtc(inside);
    const found = new Map<CopiedTable, readonly string[]>();
    for (const table of [...CONTENT, SOUNDS]) found.set(table, await keysOf(inside, table));
    const rows: [CopiedTable, (readonly string[])[]][] = [];
    for (const table of RECORDS) {
      const pages: (readonly string[])[] = [];
      for await (const page of rowsOf(inside, table)) pages.push(page);
      rows.push([table, pages]);
    }
    return { keys: found, records: rows };
  });
  const pieces = async function* (table: CopiedTable): AsyncGenerator<readonly string[]> {
    for (const part of parts(table, keys.get(table)!)) {
      yield await database.transaction(async (inside: Queryable) => {
        await inUtc(inside);
        return rowsOfKeys(inside, table, part);
      });
    }
  };
  const sections: Section[] = [
    ...CONTENT.map((table): Section => [table, pieces(table)]),
    ...records,
    [SOUNDS, pieces(SOUNDS)],
  ];
  return { sections, end: async () => {} };
}
