/** Tables of a whole corpus, streamed: a handful of takes at a time, written in worker threads, never all in memory. */
import type { Response } from "express";
import { csvHeading, TABLES, type TableName } from "../../src/export/index.ts";
import type { Analyst } from "../analysis/analyst.ts";
import type { Filter } from "../contract/filter.ts";
import type { Database } from "../store/database.ts";
import { blockName } from "./block.ts";
import { after, BEGIN, MEANT, meantValues, ORDER, placeValues } from "./filter.ts";
import { corpusColumns, corpusSchema, type EncodedGroup, ParquetFile, tableMetadata } from "./parquet.ts";
import type { Chunk, ChunkTake, ChunkTask } from "./table-chunk.ts";
import { TAKE_COLUMNS, type TakeCells } from "./take-columns.ts";

/** Takes written at once by one thread. A row group is better for being long. */
const TAKES = { csv: 8, ndjson: 8, parquet: 32 } as const;
/** Chunks under way at once: enough to keep the threads busy while one is being sent. */
const AHEAD = 4;

export const TABLE_FORMATS = {
  csv: "text/csv; charset=utf-8",
  ndjson: "application/x-ndjson; charset=utf-8",
  parquet: "application/vnd.apache.parquet",
} as const;

export type TableFormat = keyof typeof TABLE_FORMATS;

export interface Source {
  readonly database: Database;
  readonly analyst: Analyst;
  readonly corpus: string;
  readonly filter: Filter;
}

/**
 * Writes a table to an answer whose heading is sent, and ends it with a trailer that says how many rows it has. What
 * is thrown on the way leaves the answer unended: the connection then has to be broken, so that nobody takes the part
 * that was sent for the whole.
 */
export async function sendTable(
  source: Source,
  table: TableName,
  format: TableFormat,
  response: Response,
): Promise<void> {
  let rows = 0;
  const file =
    format === "parquet"
      ? new ParquetFile(corpusSchema(table), tableMetadata(table, corpusColumns(table)))
      : null;
  if (file !== null) await writePart(response, file.begin());
  if (format === "csv") {
    const lead = TAKE_COLUMNS.map((column) => column.name);
    await writePart(response, Buffer.from(csvHeading(TABLES[table], lead)));
  }
  for await (const chunk of chunksOf(source, table, format)) {
    rows += chunk.rows;
    if (chunk.part === null) continue;
    await writePart(
      response,
      file === null ? (chunk.part as Uint8Array) : file.add(chunk.part as EncodedGroup),
    );
  }
  if (file !== null) await writePart(response, file.end());
  response.addTrailers({ [ROWS_TRAILER]: String(rows) });
  response.end();
}

/** Trailer of a whole table: its number of rows. A table that broke off has none. */
export const ROWS_TRAILER = "x-rows";

/** Chunks in the order of the takes; some are made ahead while one is sent. */
async function* chunksOf(source: Source, table: TableName, format: TableFormat): AsyncGenerator<Chunk> {
  const ahead: Promise<Chunk>[] = [];
  for await (const takes of pagesOf(source, table, TAKES[format])) {
    const chunk = source.analyst.run<ChunkTask, Chunk>("table", { table, format, takes });
    // A failure is thrown when its turn comes; until then it is not unheard.
    chunk.catch(() => {});
    ahead.push(chunk);
    if (ahead.length >= AHEAD) yield await ahead.shift()!;
  }
  for (const chunk of ahead) yield await chunk;
}

interface PageRow extends TakeCells, Omit<ChunkTake, "lead"> {
  readonly source: string;
  readonly analysis: string;
}

async function* pagesOf(
  { database, corpus, filter }: Source,
  table: TableName,
  most: number,
): AsyncGenerator<ChunkTake[]> {
  let last = BEGIN;
  for (;;) {
    const rows: PageRow[] = await database.query<PageRow>(
      `with page as (
         select t.id as take, t.title, p.name as player, to_char(t.played_on, 'YYYY-MM-DD') as date, t.tags,
           a.facts->>'key' as key, (a.facts->>'tempo')::float8 as tempo, a.key as analysis, t.source
         ${MEANT} and ${after(11)} order by ${ORDER} limit ${most})
       select page.take, page.title, page.player, page.date, page.tags, page.key, page.tempo, page.source,
         page.analysis, b.block,
         case when b.key is null then (select account from analyses where key = page.analysis) end as account
       from page left join blocks b on b.key = page.analysis and b.name = $14
       order by page.source, page.analysis, page.take`,
      [...meantValues(corpus, filter), ...placeValues(last), blockName(table)],
    );
    if (rows.length > 0) {
      const { source, analysis, take } = rows.at(-1)!;
      last = { source, key: analysis, take };
      yield rows.map(({ account, block, source: _source, analysis: _analysis, ...lead }) => ({
        lead,
        account,
        block,
      }));
    }
    if (rows.length < most) return;
  }
}

/** Waits while the reader is slower than we are; throws when it has gone. */
export async function writePart(response: Response, part: Uint8Array): Promise<void> {
  if (response.destroyed) throw new Error("the reader has gone");
  if (response.write(part)) return;
  await new Promise<void>((done, gone) => {
    const stop = () => gone(new Error("the reader has gone"));
    response.once("close", stop);
    response.once("drain", () => {
      response.off("close", stop);
      done();
    });
  });
}
