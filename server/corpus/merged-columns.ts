/** The same column of several takes as one of a row group: their values put together, and the codes with them. */
import type { Cell } from "../../src/export/index.ts";
import { parquetCell } from "./parquet.ts";
import { type CodedColumn, type ColumnType, placeOf } from "./parquet-column.ts";

export interface ColumnPart {
  readonly values: readonly Cell[];
  /** Place in `values` for each row; a length alone where all rows have the first one. */
  readonly codes: ArrayLike<number> | { readonly length: number };
}

/** @param rows of all parts */
export function mergedColumns(
  type: ColumnType,
  parts: readonly ColumnPart[],
  rows: number,
): Pick<CodedColumn, "values" | "codes"> {
  const different = parts.reduce((sum, { values }) => sum + values.length, 0);
  // Numbers like times, nearly one a row, make no dictionary: equal ones need not be found.
  const kept = type === "number" && 2 * different > rows;
  const places = new Map<Cell, number>();
  const all: Cell[] = [];
  const codes = new Int32Array(rows);
  let row = 0;
  for (const part of parts) {
    const now = new Int32Array(part.values.length);
    part.values.forEach((value, i) => {
      now[i] = kept && value !== null ? all.length : placeOf(value, places, all.length);
      if (now[i] === all.length) all.push(value);
    });
    const given = part.codes as ArrayLike<number>;
    if (part.values.length === 1) codes.fill(now[0]!, row, row + given.length);
    else for (let i = 0; i < given.length; i++) codes[row + i] = now[given[i]!]!;
    row += given.length;
  }
  return { values: all.map((value) => parquetCell(type, value)), codes };
}
