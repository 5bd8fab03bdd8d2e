/** Tables as Parquet files: row groups are encoded where there is time for it, and put together here. */
import { ByteWriter, ParquetWriter } from "hyparquet-writer";
import { type Analysis, SCHEMA_VERSION } from "../../src/account.ts";
import { ANALYSIS_VERSION } from "../../src/analyse.ts";
import { type Cell, type Column, itemsOfCell, TABLES, type TableName } from "../../src/export/index.ts";
import { columnMeaning, columnUnit } from "../reference/columns.ts";
import { blockOf } from "./block.ts";
import { type CodedColumn, type ColumnChunk, encodeColumn } from "./parquet-column.ts";
import { TAKE_COLUMNS } from "./take-columns.ts";

/** A row group's pages, and what the footer says of them, counted from the group's own first byte. */
export interface EncodedGroup {
  readonly bytes: Uint8Array;
  readonly group: ParquetWriter["row_groups"][number];
}

export type Schema = ParquetWriter["schema"];
type KeyValue = NonNullable<ParquetWriter["kvMetadata"]>[number];

/** A corpus table's columns: which take, then the table's own. */
export function corpusColumns(table: TableName): readonly TypedColumn[] {
  return [...TAKE_COLUMNS, ...TABLES[table].columns];
}

export function corpusSchema(table: TableName): Schema {
  return schemaOf(corpusColumns(table));
}

/** What a file says of itself: versions, and of each column its meaning with its unit. */
export function tableMetadata(table: string, columns: readonly TypedColumn[]): KeyValue[] {
  const meaning = (name: string) => columnMeaning(table, name) || columnMeaning("take", name);
  return [
    { key: "ledgerline.table", value: table },
    { key: "ledgerline.analysisVersion", value: ANALYSIS_VERSION },
    { key: "ledgerline.schemaVersion", value: String(SCHEMA_VERSION) },
    {
      key: "ledgerline.columns",
      value: JSON.stringify(Object.fromEntries(columns.map(({ name }) => [name, meaning(name)]))),
    },
    {
      key: "ledgerline.units",
      value: JSON.stringify(
        Object.fromEntries(
          columns.flatMap(({ name, type }) => {
            const unit = columnUnit(type, meaning(name));
            return unit === null ? [] : [[name, unit]];
          }),
        ),
      ),
    },
  ];
}

/** A group of columns of the same number of rows; null for columns without rows. */
export function encodeGroup(columns: readonly CodedColumn[]): EncodedGroup | null {
  const rows = columns[0]?.codes.length ?? 0;
  if (rows === 0) return null;
  const parts = columns.map(encodeColumn);
  let at = 0;
  const chunks = parts.map(({ bytes, chunk }) => {
    const placed = movedChunk(chunk, at);
    at += bytes.length;
    return placed;
  });
  const size = parts.reduce((sum, { chunk }) => sum + chunk.meta_data!.total_uncompressed_size, 0n);
  return {
    bytes: Buffer.concat(parts.map(({ bytes }) => bytes)),
    group: { columns: chunks, num_rows: BigInt(rows), total_byte_size: size },
  };
}

/** A file of many row groups, none of which is held once it has been handed on. */
export class ParquetFile {
  readonly #writer = new ByteWriter();
  readonly #parquet: ParquetWriter;

  constructor(schema: Schema, kvMetadata: KeyValue[]) {
    this.#parquet = new ParquetWriter({ writer: this.#writer, schema, createdBy: "Ledgerline", kvMetadata });
  }

  /** The bytes that a file begins with. */
  begin(): Uint8Array {
    return this.#handOn();
  }

  /** Counts a group in; its bytes are the next of the file. */
  add({ bytes, group }: EncodedGroup): Uint8Array {
    this.#parquet.row_groups.push(moved(group, this.#writer.offset));
    this.#parquet.num_rows += group.num_rows;
    this.#writer.offset += bytes.length;
    return bytes;
  }

  /** The footer. */
  end(): Uint8Array {
    this.#parquet.finish();
    return this.#handOn();
  }

  /** The writer's own offset goes on counting; only its buffer is emptied. */
  #handOn(): Uint8Array {
    const bytes = this.#writer.getBytes().slice();
    this.#writer.index = 0;
    return bytes;
  }
}

/** One account's table as a whole file. */
export function parquetOf(table: TableName, analysis: Analysis): Uint8Array {
  const { columns } = TABLES[table];
  const { columns: blocks } = blockOf(TABLES[table], analysis);
  const file = new ParquetFile(schemaOf(columns), tableMetadata(table, columns));
  const group = encodeGroup(
    blocks.map(({ values, codes }, k) => {
      const { name, type } = columns[k]!;
      return { name, type, values: values.map((cell) => parquetCell(type, cell)), codes, statistics: false };
    }),
  );
  return Buffer.concat([file.begin(), ...(group === null ? [] : [file.add(group)]), file.end()]);
}

type TypedColumn = Pick<Column<never>, "name" | "type">;

/** The schema of a file with these columns, all of which may be null. */
export function schemaOf(columns: readonly TypedColumn[]): Schema {
  return [{ name: "root", num_children: columns.length }, ...columns.flatMap(elementsOf)];
}

/** Dates and lists as Parquet has them (its logical types DATE, and LIST in three levels). */
function elementsOf({ name, type }: TypedColumn): Schema {
  const optional = { name, repetition_type: "OPTIONAL" } as const;
  const utf8 = { type: "BYTE_ARRAY", converted_type: "UTF8" } as const;
  switch (type) {
    case "text":
      return [{ ...optional, ...utf8 }];
    case "integer":
      return [{ ...optional, type: "INT32" }];
    case "number":
      return [{ ...optional, type: "DOUBLE" }];
    case "boolean":
      return [{ ...optional, type: "BOOLEAN" }];
    case "date":
      return [{ ...optional, type: "INT32", converted_type: "DATE" }];
    case "list":
      return [
        { ...optional, converted_type: "LIST", num_children: 1 },
        { name: "list", repetition_type: "REPEATED", num_children: 1 },
        { name: "element", repetition_type: "OPTIONAL", ...utf8 },
      ];
  }
}

/** A cell as it is kept in a column of Parquet. */
export function parquetCell(type: TypedColumn["type"], cell: Cell): CodedColumn["values"][number] {
  if (type === "list") return itemsOfCell(cell);
  if (type === "date") return cell === null ? null : Date.parse(`${cell}T00:00:00Z`) / DAY_MS;
  // A zero below zero is a zero: as text it has no sign either, and equal cells are kept once.
  return cell === 0 ? 0 : cell;
}

const DAY_MS = 24 * 60 * 60 * 1000;

function moved(group: EncodedGroup["group"], by: number): EncodedGroup["group"] {
  return { ...group, columns: group.columns.map((column) => movedChunk(column, by)) };
}

function movedChunk(column: ColumnChunk, by: number): ColumnChunk {
  const shift = (offset: bigint) => offset + BigInt(by);
  const { meta_data: meta } = column;
  if (meta === undefined) return column;
  return {
    ...column,
    meta_data: {
      ...meta,
      data_page_offset: shift(meta.data_page_offset),
      ...(meta.dictionary_page_offset === undefined
        ? {}
        : { dictionary_page_offset: shift(meta.dictionary_page_offset) }),
    },
  };
}
