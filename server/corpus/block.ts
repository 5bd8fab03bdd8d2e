/**
 * A table of one account as a block of columns: the values of a column once each, and for every row which of them it
 * has. Blocks are made when a take is analysed, so that a table of a whole corpus is written without opening accounts.
 */
import { createHash } from "node:crypto";
import { endianness } from "node:os";
import { deflateSync, inflateSync } from "node:zlib";
import type { Analysis } from "../../src/account.ts";
import { type Cell, TABLES, type Table, type TableName } from "../../src/export/index.ts";

/** As narrow as they are stored. */
export type Codes = Uint16Array | Uint32Array;

/** A value for each row, one for all of them, or numbers in a list. */
export type CodeKind = "each" | "same" | "listed";

export interface BlockColumn {
  readonly values: readonly Cell[];
  /** Place in `values` for each row. */
  readonly codes: Codes;
}

export interface Block {
  readonly rows: number;
  readonly columns: readonly BlockColumn[];
}

/** Heading of a stored block; the codes follow it, column by column, little-endian, 16 bits each while they fit. */
interface Heading {
  readonly rows: number;
  readonly columns: readonly {
    readonly values: readonly Cell[];
    readonly codes: CodeKind;
  }[];
}

/** The values that stored blocks of longer tables cannot number in 16 bits. */
const SHORT = 65_536;

/**
 * The name under which a table's blocks are kept: it changes with the table's columns, so that a block of other columns
 * is never taken for one of these.
 */
export function blockName(table: TableName): string {
  const columns = TABLES[table].columns.map(({ name, type }) => `${name} ${type}`).join("\n");
  return `${table} ${createHash("sha256").update(columns).digest("hex").slice(0, 12)}`;
}

export function blockOf<Row>(table: Table<Row>, analysis: Analysis): Block {
  const rows = table.rows(analysis);
  const columns = table.columns.map((column) => {
    const places = new Map<Cell, number>();
    const codes = new Uint32Array(rows.length);
    rows.forEach((row, i) => {
      const value = column.value(row);
      let place = places.get(value);
      if (place === undefined) {
        place = places.size;
        places.set(value, place);
      }
      codes[i] = place;
    });
    return { values: [...places.keys()], codes };
  });
  return { rows: rows.length, columns };
}

/** The block in as few bytes as one quick pass of compression makes of it. */
export function packBlock({ rows, columns }: Block): Uint8Array {
  const heading: Heading = {
    rows,
    columns: columns.map(({ values }) => ({
      values,
      codes: values.length === rows ? "each" : values.length === 1 ? "same" : "listed",
    })),
  };
  const listed = columns.filter((_, k) => heading.columns[k]!.codes === "listed");
  const text = Buffer.from(JSON.stringify(heading));
  const width = rows < SHORT ? 2 : 4;
  const bytes = Buffer.alloc(4 + text.length + width * rows * listed.length);
  bytes.writeUInt32LE(text.length, 0);
  text.copy(bytes, 4);
  let at = 4 + text.length;
  for (const { codes } of listed) {
    for (const code of codes) {
      if (width === 2) bytes.writeUInt16LE(code, at);
      else bytes.writeUInt32LE(code, at);
      at += width;
    }
  }
  return deflateSync(bytes, { level: 4 });
}

export function openBlock(packed: Uint8Array): Block {
  const { heading, codes } = inflateBlock(packed);
  const { rows, columns } = JSON.parse(heading.toString("utf8")) as Heading;
  let from = 0;
  return {
    rows,
    columns: columns.map(({ values, codes: kind }) => {
      const read = codesOf(kind, rows, codes, from);
      from = read.end;
      return { values, codes: read.codes };
    }),
  };
}

/** The heading as JSON, its fields in the order in which they stand in `Heading`, and the codes of all columns. */
export function inflateBlock(packed: Uint8Array): { readonly heading: Buffer; readonly codes: Buffer } {
  const bytes = inflateSync(packed);
  const end = 4 + bytes.readUInt32LE(0);
  return { heading: bytes.subarray(4, end), codes: bytes.subarray(end) };
}

/** @returns the codes of a column, and where those of the next one begin */
export function codesOf(
  kind: CodeKind,
  rows: number,
  bytes: Buffer,
  from: number,
): { readonly codes: Codes; readonly end: number } {
  const Kind = rows < SHORT ? Uint16Array : Uint32Array;
  if (kind !== "listed") {
    const codes = new Kind(rows);
    if (kind === "each") for (let i = 0; i < rows; i++) codes[i] = i;
    return { codes, end: from };
  }
  const end = from + rows * Kind.BYTES_PER_ELEMENT;
  const own = Buffer.from(bytes.subarray(from, end));
  if (endianness() === "BE") Kind === Uint16Array ? own.swap16() : own.swap32();
  return { codes: new Kind(own.buffer.slice(own.byteOffset, own.byteOffset + own.length)), end };
}
