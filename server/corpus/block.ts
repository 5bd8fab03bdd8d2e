/**
 * A table of one account as a block of columns: the values of a column once each, and for every row which of them it
 * has. Blocks are made when a take is analysed, so that a table of a whole corpus is written without opening accounts.
 */
import { createHash } from "node:crypto";
import { deflateSync, inflateSync } from "node:zlib";
import type { Analysis } from "../../src/account.ts";
import { type Cell, TABLES, type Table, type TableName } from "../../src/export/index.ts";

export interface BlockColumn {
  readonly values: readonly Cell[];
  /** Place in `values` for each row. */
  readonly codes: Uint32Array;
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
    readonly codes: "each" | "same" | "listed";
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
  const bytes = inflateSync(packed);
  const length = bytes.readUInt32LE(0);
  const { rows, columns } = JSON.parse(bytes.toString("utf8", 4, 4 + length)) as Heading;
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
  const width = rows < SHORT ? 2 : 4;
  let at = 4 + length;
  return {
    rows,
    columns: columns.map(({ values, codes: kind }) => {
      const codes = new Uint32Array(rows);
      if (kind === "each") for (let i = 0; i < rows; i++) codes[i] = i;
      if (kind === "listed") {
        for (let i = 0; i < rows; i++, at += width) {
          codes[i] = width === 2 ? view.getUint16(at, true) : view.getUint32(at, true);
        }
      }
      return { values, codes };
    }),
  };
}
