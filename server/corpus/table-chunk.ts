/** Rows of a table from a handful of takes; runs in a worker thread. */
import { gunzipSync } from "node:zlib";
import { move, transferableSymbol, valueSymbol } from "piscina";
import type { Analysis } from "../../src/account.ts";
import { csvCell, itemsOfCell, TABLES, type TableName } from "../../src/export/index.ts";
import { type Block, blockOf, openBlock, packBlock } from "./block.ts";
import { openTokens, type TokenBlock } from "./block-tokens.ts";
import { mergedColumns } from "./merged-columns.ts";
import { type EncodedGroup, encodeGroup } from "./parquet.ts";
import type { CodedColumn } from "./parquet-column.ts";
import { TAKE_COLUMNS, type TakeCells } from "./take-columns.ts";
import { csvTexts, jsonTexts } from "./text-cells.ts";
import { encodeRows, encodeTexts, type TextRows } from "./text-rows.ts";

export interface ChunkTake {
  readonly lead: TakeCells;
  /** The table as it is stored, or null when the take was analysed before tables were. */
  readonly block: Uint8Array | null;
  /** The account, for takes without a block. */
  readonly account: Uint8Array | null;
}

export interface ChunkTask {
  readonly table: TableName;
  readonly format: "csv" | "ndjson" | "parquet";
  readonly takes: readonly ChunkTake[];
}

export interface Chunk {
  readonly rows: number;
  /** UTF-8 text, or a Parquet row group; null when there are no rows. */
  readonly part: Uint8Array | EncodedGroup | null;
}

export default function run(task: ChunkTask): Chunk {
  const chunk = chunkOf(task);
  const bytes = chunk.part === null ? null : "bytes" in chunk.part ? chunk.part.bytes : chunk.part;
  return bytes === null || bytes.length < OWN ? chunk : handedOver(chunk, bytes.buffer as ArrayBuffer);
}

/** Buffers from this length on have memory of their own; shorter ones may share it with others. */
const OWN = Buffer.poolSize;

/** The megabytes of a chunk are not copied on their way out of the thread. */
function handedOver(chunk: Chunk, memory: ArrayBuffer): Chunk {
  return move({ [transferableSymbol]: [memory], [valueSymbol]: chunk } as Parameters<
    typeof move
  >[0]) as unknown as Chunk;
}

function chunkOf({ table, format, takes }: ChunkTask): Chunk {
  if (format === "parquet") {
    const parts = takes.map(({ lead, ...take }) => ({ lead, block: openBlock(blockFrom(table, take)) }));
    return { rows: rowsOf(parts), part: encodeGroup(groupColumns(table, parts)) };
  }
  const parts = takes.map(({ lead, ...take }) => ({ lead, block: openTokens(blockFrom(table, take)) }));
  const rowsOfPart = format === "csv" ? csvRows : jsonRows;
  return { rows: rowsOf(parts), part: encodeRows(parts.map((part) => rowsOfPart(table, part))) };
}

interface Part<Opened> {
  readonly lead: TakeCells;
  readonly block: Opened;
}

function rowsOf(parts: readonly Part<{ readonly rows: number }>[]): number {
  return parts.reduce((sum, { block }) => sum + block.rows, 0);
}

function blockFrom(table: TableName, { block, account }: Omit<ChunkTake, "lead">): Uint8Array {
  if (block !== null) return block;
  if (account === null) throw new Error("a take of the corpus has neither table nor account");
  const analysis = JSON.parse(gunzipSync(account).toString("utf8")) as Analysis;
  return packBlock(blockOf(TABLES[table], analysis));
}

function csvRows(_table: TableName, { lead, block }: Part<TokenBlock>): TextRows {
  const before = TAKE_COLUMNS.map((column) => `${csvCell(column.value(lead))},`).join("");
  return {
    rows: block.rows,
    ends: encodeTexts([before, "\r\n"]),
    columns: block.columns.map((column, k) => ({
      texts: csvTexts(k === 0 ? "" : ",", column),
      codes: column.codes,
    })),
  };
}

function jsonRows(table: TableName, { lead, block }: Part<TokenBlock>): TextRows {
  const before = TAKE_COLUMNS.map(({ name, type, value }) => {
    const cell = value(lead);
    return `${JSON.stringify(name)}:${JSON.stringify(type === "list" ? itemsOfCell(cell) : cell)},`;
  }).join("");
  return {
    rows: block.rows,
    ends: encodeTexts([`{${before}`, "}\n"]),
    columns: block.columns.map((column, k) => {
      const { name, type } = TABLES[table].columns[k]!;
      return {
        texts: jsonTexts(`${k === 0 ? "" : ","}${JSON.stringify(name)}:`, type, column),
        codes: column.codes,
      };
    }),
  };
}

function groupColumns(table: TableName, parts: readonly Part<Block>[]): CodedColumn[] {
  const rows = rowsOf(parts);
  const leads = TAKE_COLUMNS.map(({ name, type, value }) => ({
    ...{ name, type },
    // Takes are what a reader of a corpus picks out; notes are not.
    statistics: type !== "list",
    ...mergedColumns(
      type,
      parts.map(({ lead, block }) => ({ values: [value(lead)], codes: { length: block.rows } })),
      rows,
    ),
  }));
  const own = TABLES[table].columns.map(({ name, type }, k) => ({
    ...{ name, type, statistics: false },
    ...mergedColumns(
      type,
      parts.map(({ block }) => block.columns[k]!),
      rows,
    ),
  }));
  return [...leads, ...own];
}
