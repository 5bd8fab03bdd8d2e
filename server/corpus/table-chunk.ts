/** Rows of a table from a handful of takes; runs in a worker thread. */
import { gunzipSync } from "node:zlib";
import type { Analysis } from "../../src/account.ts";
import {
  type Cell,
  type Column,
  csvCell,
  itemsOfCell,
  TABLES,
  type TableName,
} from "../../src/export/index.ts";
import { type Block, blockOf, openBlock } from "./block.ts";
import { corpusSchema, type EncodedGroup, encodeGroup, type ParquetColumn, parquetCell } from "./parquet.ts";
import { TAKE_COLUMNS, type TakeCells } from "./take-columns.ts";
import { encodeRows, type TextRows } from "./text-rows.ts";

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

export default function run({ table, format, takes }: ChunkTask): Chunk {
  const parts = takes.map((take) => ({ lead: leadCells(take.lead), block: blockFrom(table, take) }));
  const rows = parts.reduce((sum, { block }) => sum + block.rows, 0);
  switch (format) {
    case "csv":
      return { rows, part: encodeRows(parts.map(({ lead, block }) => csvRows(lead, block))) };
    case "ndjson":
      return { rows, part: encodeRows(parts.map(({ lead, block }) => jsonRows(table, lead, block))) };
    case "parquet":
      return { rows, part: rowGroup(table, parts) };
  }
}

interface Part {
  readonly lead: readonly Cell[];
  readonly block: Block;
}

function leadCells(row: TakeCells): Cell[] {
  return TAKE_COLUMNS.map((column) => column.value(row));
}

function blockFrom(table: TableName, { block, account }: ChunkTake): Block {
  if (block !== null) return openBlock(block);
  if (account === null) throw new Error("a take of the corpus has neither table nor account");
  return blockOf(TABLES[table], JSON.parse(gunzipSync(account).toString("utf8")) as Analysis);
}

function csvRows(lead: readonly Cell[], { rows, columns }: Block): TextRows {
  return {
    rows,
    before: lead.map((cell) => `${csvCell(cell)},`).join(""),
    after: "\r\n",
    columns: columns.map(({ values, codes }, k) => ({
      texts: values.map((value) => (k === 0 ? csvCell(value) : `,${csvCell(value)}`)),
      codes,
    })),
  };
}

function jsonCell(type: Column<never>["type"], value: Cell): string {
  if (type === "list") return JSON.stringify(itemsOfCell(value));
  return typeof value === "number" && Number.isFinite(value) ? String(value) : JSON.stringify(value);
}

function jsonRows(table: TableName, lead: readonly Cell[], { rows, columns }: Block): TextRows {
  return {
    rows,
    before: `{${TAKE_COLUMNS.map(({ name, type }, i) => `${JSON.stringify(name)}:${jsonCell(type, lead[i]!)},`).join("")}`,
    after: "}\n",
    columns: columns.map(({ values, codes }, k) => {
      const { name, type } = TABLES[table].columns[k]!;
      const before = `${k === 0 ? "" : ","}${JSON.stringify(name)}:`;
      return { texts: values.map((value) => before + jsonCell(type, value)), codes };
    }),
  };
}

function rowGroup(table: TableName, parts: readonly Part[]): EncodedGroup | null {
  const rows = parts.reduce((sum, { block }) => sum + block.rows, 0);
  const columns = [...TAKE_COLUMNS, ...TABLES[table].columns].map(({ name, type }, k) => {
    const data = new Array<ParquetColumn["data"][number]>(rows);
    let row = 0;
    for (const { lead, block } of parts) {
      if (k < TAKE_COLUMNS.length) {
        data.fill(parquetCell(type, lead[k]!), row, row + block.rows);
        row += block.rows;
      } else {
        const { values, codes } = block.columns[k - TAKE_COLUMNS.length]!;
        const cells =
          type === "list" || type === "date" ? values.map((cell) => parquetCell(type, cell)) : values;
        for (let i = 0; i < block.rows; i++) data[row++] = cells[codes[i]!]!;
      }
    }
    // Takes are what a reader of a corpus picks out; notes are not.
    return { name, data, statistics: k < TAKE_COLUMNS.length && type !== "list" };
  });
  return encodeGroup(corpusSchema(table), columns);
}
