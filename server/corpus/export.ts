/** Tables of a whole corpus, streamed: a handful of accounts at a time, made in worker threads, never all in memory. */
import type { Response } from "express";
import { ByteWriter, ParquetWriter, schemaFromColumnData } from "hyparquet-writer";
import { type Cell, csvHeading, TABLES, type TableName } from "../../src/export/index.ts";
import type { Analyst } from "../analysis/analyst.ts";
import type { Database } from "../store/database.ts";
import { type Filter, MEANT, meantValues } from "./filter.ts";
import { LEAD, type LeadRow } from "./lead.ts";
import type { Chunk, ChunkTask } from "./table-chunk.ts";

/** Accounts opened at once by one thread. */
const CHUNK = 16;
/** Chunks under way at once: enough to keep the threads busy while one is being sent. */
const AHEAD = 6;
/** Rows of a Parquet row group. */
const ROW_GROUP = 100_000;

const CHUNK_WORKER = new URL("./table-chunk.ts", import.meta.url).href;

export const TABLE_FORMATS = {
  csv: "text/csv; charset=utf-8",
  ndjson: "application/x-ndjson; charset=utf-8",
  parquet: "application/vnd.apache.parquet",
} as const;

export type TableFormat = keyof typeof TABLE_FORMATS;

interface Source {
  readonly database: Database;
  readonly analyst: Analyst;
  readonly corpus: string;
  readonly filter: Filter;
}

export async function sendTable(
  source: Source,
  table: TableName,
  format: TableFormat,
  response: Response,
): Promise<void> {
  if (format === "parquet") return sendParquet(source, table, response);
  if (format === "csv") {
    response.write(
      csvHeading(
        TABLES[table],
        LEAD.map((column) => column.name),
      ),
    );
  }
  for await (const chunk of chunksOf(source, table, format)) await write(response, chunk as Uint8Array);
  response.end();
}

async function sendParquet(source: Source, table: TableName, response: Response): Promise<void> {
  const columns = [...LEAD, ...TABLES[table].columns];
  const typed = columns.map(({ name, type }) => ({
    name,
    type: PARQUET_TYPES[type],
    nullable: true,
    data: [] as Cell[],
  }));
  const bytes = new ByteWriter();
  const parquet = new ParquetWriter({
    writer: bytes,
    schema: schemaFromColumnData({ columnData: typed }),
    createdBy: "Ledgerline",
  });
  const send = async () => {
    // The writer's own offset goes on counting; only its buffer is emptied.
    const part = bytes.getBytes().slice();
    bytes.index = 0;
    await write(response, part);
  };
  let held: Cell[][] = columns.map(() => []);
  const writeGroup = async () => {
    if (held[0]!.length === 0) return;
    await parquet.write({
      columnData: typed.map(({ name }, i) => ({ name, data: held[i]! })),
      rowGroupSize: Number.MAX_SAFE_INTEGER,
    });
    held = columns.map(() => []);
    await send();
  };
  for await (const chunk of chunksOf(source, table, "columns")) {
    for (const [i, cells] of (chunk as Cell[][]).entries()) for (const cell of cells) held[i]!.push(cell);
    if (held[0]!.length >= ROW_GROUP) await writeGroup();
  }
  await writeGroup();
  await parquet.finish();
  await send();
  response.end();
}

const PARQUET_TYPES = { text: "STRING", integer: "INT32", number: "DOUBLE", boolean: "BOOLEAN" } as const;

/** Chunks in the order of the takes' ids; some are made ahead while one is sent. */
async function* chunksOf(
  source: Source,
  table: TableName,
  format: ChunkTask["format"],
): AsyncGenerator<Chunk> {
  const ahead: Promise<Chunk>[] = [];
  for await (const takes of pagesOf(source)) {
    const chunk = source.analyst.run<ChunkTask, Chunk>(CHUNK_WORKER, { table, format, takes });
    // A failure is thrown when its turn comes; until then it is not unheard.
    chunk.catch(() => {});
    ahead.push(chunk);
    if (ahead.length >= AHEAD) yield await ahead.shift()!;
  }
  for (const chunk of ahead) yield await chunk;
}

async function* pagesOf({ database, corpus, filter }: Source): AsyncGenerator<ChunkTask["takes"]> {
  let after = "";
  for (;;) {
    const rows = await database.query<LeadRow & { account: Uint8Array }>(
      `select t.id as take, t.title, p.name as player, to_char(t.played_on, 'YYYY-MM-DD') as date, t.tags,
         a.facts->>'key' as key, (a.facts->>'tempo')::float8 as tempo, a.account
       ${MEANT} and t.id > $11 order by t.id limit ${CHUNK}`,
      [...meantValues(corpus, filter), after],
    );
    if (rows.length === 0) return;
    after = rows.at(-1)!.take;
    yield rows.map(({ account, ...lead }) => ({ lead, account }));
  }
}

/** Waits while the reader is slower than we are; throws when it has gone. */
async function write(response: Response, part: Uint8Array): Promise<void> {
  if (response.destroyed) throw new Error("the reader has gone");
  if (response.write(part)) return;
  await new Promise<void>((done, gone) => {
    response.once("drain", done);
    response.once("close", () => gone(new Error("the reader has gone")));
  });
}
