/** Reads a backup: first all of it against its hash, then row by row into a new store, whose rows are hashed again. */
import { createHash } from "node:crypto";
import { createReadStream } from "node:fs";
import { createGunzip } from "node:zlib";
import { Problem } from "../../src/take/index.ts";
import type { Database, Queryable } from "../store/database.ts";
import { STEP_COUNT, takeSteps } from "../store/migrations.ts";
import { inUtc, rowsOf } from "./rows.ts";
import { COPIED } from "./tables.ts";
import { type Counts, FORMAT, FORMAT_VERSION, tallying } from "./write.ts";

/** Characters of rows that one statement puts back. */
const AT_ONCE = 2_000_000;

/**
 * Reads a file through and holds it against its own hash.
 *
 * @returns number and hash of the rows of each table
 * @throws Problem `not-a-backup`, `backup-broken`, `backup-newer`
 */
export async function checkBackup(file: string): Promise<Counts> {
  const whole = createHash("sha256");
  let before: string | null = null;
  for await (const line of linesOf(file)) {
    if (before === null) headingOf(line);
    else whole.update(`${before}\n`);
    before = line;
  }
  const end = parsed(before ?? "") as { tables?: Counts; sha256?: string } | null;
  if (end?.tables === undefined || end.sha256 !== whole.digest("hex")) throw broken();
  return end.tables;
}

/**
 * Puts a backup that was checked into a new store, in one transaction: a restore that is cut off leaves nothing.
 *
 * @throws Problem `store-not-empty`; `backup-broken` when what the store holds afterwards is not what the file says
 */
export async function restoreBackup(database: Database, file: string, counts: Counts): Promise<void> {
  await database.transaction(async (inside) => {
    const [known] = await inside.query("select 1 from pg_tables where schemaname = 'public' limit 1");
    if (known !== undefined) throw notEmpty();
    let steps: number | null = null;
    for await (const [name, rows] of batches(file, (heading) => {
      steps = heading.steps;
    })) {
      if (steps !== null) await takeSteps(inside, steps);
      steps = null;
      if (!COPIED.some((table) => table.name === name)) throw broken();
      await inside.query(
        `insert into ${name} select * from json_populate_recordset(null::${name}, $1::text::json)`,
        [`[${rows.join(",")}]`],
      );
    }
    if (steps !== null) await takeSteps(inside, steps);
    await compare(inside, counts);
    await takeSteps(inside);
  });
}

async function compare(inside: Queryable, counts: Counts): Promise<void> {
  await inUtc(inside);
  for (const table of COPIED) {
    const told = counts[table.name];
    // A backup from before the table was made.
    if (told === undefined) continue;
    const tally = tallying();
    for await (const page of rowsOf(inside, table)) tally.add(page);
    const { rows, sha256 } = tally.count();
    if (rows !== told.rows || sha256 !== told.sha256) throw broken();
  }
}

/** Rows of one table each, as many as one statement puts back. */
async function* batches(
  file: string,
  tell: (heading: Heading) => void,
): AsyncGenerator<readonly [name: string, rows: readonly string[]]> {
  let name = "";
  let rows: string[] = [];
  let size = 0;
  let first = true;
  for await (const line of linesOf(file)) {
    if (first) tell(headingOf(line));
    const space = line.startsWith("{") ? 0 : line.indexOf(" ");
    if (!first && (line.slice(0, space) !== name || size > AT_ONCE)) {
      if (rows.length > 0) yield [name, rows];
      rows = [];
      size = 0;
    }
    name = line.slice(0, space);
    if (space > 0) {
      rows.push(line.slice(space + 1));
      size += line.length;
    }
    first = false;
  }
}

interface Heading {
  /** Number of steps of the tables that its rows are of. */
  readonly steps: number;
}

function headingOf(line: string): Heading {
  const heading = parsed(line) as { format?: string; version?: number; steps?: number } | null;
  if (heading?.format !== FORMAT || typeof heading.steps !== "number") throw notABackup();
  if ((heading.version ?? 0) > FORMAT_VERSION || heading.steps > STEP_COUNT) {
    throw new Problem(
      "backup-newer",
      "The backup was made by a newer version of this program",
      null,
      "Restore it with that version or a later one.",
    );
  }
  return { steps: heading.steps };
}

function parsed(line: string): unknown {
  try {
    return JSON.parse(line);
  } catch {
    return null;
  }
}

async function* linesOf(file: string): AsyncGenerator<string> {
  const source = createReadStream(file);
  const open = source.pipe(createGunzip());
  source.once("error", (error) => open.destroy(error));
  let held: Buffer[] = [];
  try {
    for await (const chunk of open as AsyncIterable<Buffer>) {
      let from = 0;
      for (let end = chunk.indexOf(10); end >= 0; end = chunk.indexOf(10, from)) {
        held.push(chunk.subarray(from, end));
        yield Buffer.concat(held).toString("utf8");
        held = [];
        from = end + 1;
      }
      if (from < chunk.length) held.push(chunk.subarray(from));
    }
  } catch (error) {
    const code = (error as { code?: string }).code ?? "";
    if (code === "Z_DATA_ERROR") throw notABackup();
    if (code.startsWith("Z_")) throw broken();
    throw error;
  } finally {
    source.destroy();
  }
  if (held.length > 0) throw broken();
}

function notABackup(): Problem {
  return new Problem(
    "not-a-backup",
    "The file is no backup of Ledgerline",
    null,
    "Name a file that `backup` made.",
  );
}

function broken(): Problem {
  return new Problem(
    "backup-broken",
    "The backup is not whole: it breaks off, or something in it was changed",
    null,
    "Use another copy of it.",
  );
}

function notEmpty(): Problem {
  return new Problem(
    "store-not-empty",
    "The store holds something already; a backup goes into a new one",
    null,
    "Name a folder that there is not yet (DATA_DIR), or an empty database (DATABASE_URL).",
  );
}
