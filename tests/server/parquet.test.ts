/** Parquet as we write it, read by two programs of others; columns of every kind, with runs, gaps and empty lists. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { gunzipSync } from "node:zlib";
import { DuckDBInstance } from "@duckdb/node-api";
import fc from "fast-check";
import { parquetMetadata, parquetReadObjects } from "hyparquet";
import { afterAll, describe, expect, it } from "vitest";
import { mergedColumns } from "../../server/corpus/merged-columns.ts";
import { encodeGroup, ParquetFile, parquetCell, schemaOf } from "../../server/corpus/parquet.ts";
import type { ColumnType } from "../../server/corpus/parquet-column.ts";
import { type Cell, itemsOfCell, listCell } from "../../src/export/index.ts";

const folder = mkdtempSync(join(tmpdir(), "ledgerline-parquet-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const text = fc.string({ unit: "grapheme", maxLength: 6 });
const item = fc.string({ minLength: 1, maxLength: 3 }).filter((one) => !one.includes("\u001f"));
const CELLS: Readonly<Record<ColumnType, fc.Arbitrary<Cell>>> = {
  text,
  integer: fc.integer({ min: -(2 ** 31), max: 2 ** 31 - 1 }),
  number: fc.double({ noNaN: true }),
  boolean: fc.boolean(),
  date: fc
    .date({ min: new Date("1900-01-01"), max: new Date("2100-01-01"), noInvalidDate: true })
    .map((date) => date.toISOString().slice(0, 10)),
  list: fc.array(item, { maxLength: 3 }).map(listCell),
};
const TYPES = Object.keys(CELLS) as ColumnType[];

/** A column of one take: few values in runs of every length, some of them missing. */
function columnPart(type: ColumnType, rows: number) {
  const values = fc.uniqueArray(fc.option(CELLS[type], { freq: 4 }), { minLength: 1, maxLength: 12 });
  return values.chain((all) =>
    fc
      .array(fc.tuple(fc.nat(all.length - 1), fc.integer({ min: 1, max: 30 })), {
        minLength: 1,
        maxLength: 12,
      })
      .map((runs) => {
        const laid = runs.flatMap(([code, length]) => new Array<number>(length).fill(code));
        return { values: all, codes: Array.from({ length: rows }, (_, i) => laid[i % laid.length]!) };
      }),
  );
}

const takes = fc.array(
  fc.integer({ min: 1, max: 90 }).chain((rows) =>
    fc.record({
      rows: fc.constant(rows),
      columns: fc.tuple(...TYPES.map((type) => columnPart(type, rows))),
    }),
  ),
  { minLength: 1, maxLength: 4 },
);
type Takes = typeof takes extends fc.Arbitrary<infer All> ? All : never;

/** One file of two row groups, each of all takes. */
function fileOf(all: Takes): Uint8Array {
  const file = new ParquetFile(schemaOf(TYPES.map((type) => ({ name: type, type }))), []);
  const rows = all.reduce((sum, take) => sum + take.rows, 0);
  const group = encodeGroup(
    TYPES.map((type, k) => ({
      ...{ name: type, type, statistics: type !== "list" },
      ...mergedColumns(
        type,
        all.map(({ columns }) => columns[k]!),
        rows,
      ),
    })),
  )!;
  return Buffer.concat([file.begin(), file.add(group), file.add(group), file.end()]);
}

/** What was put in, row by row, with dates as they are written, and one zero for both. */
function rowsOf(all: Takes): unknown[][] {
  const once = all.flatMap(({ rows, columns }) =>
    Array.from({ length: rows }, (_, i) =>
      columns.map(({ values, codes }, k) => {
        const cell = values[codes[i]!]!;
        return TYPES[k] === "list" ? itemsOfCell(cell) : cell === 0 ? 0 : cell;
      }),
    ),
  );
  return [...once, ...once];
}

describe("a file of Parquet", () => {
  it("is read by another library as it was written", async () => {
    await fc.assert(
      fc.asyncProperty(takes, async (all) => {
        const bytes = fileOf(all);
        const file = bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.length) as ArrayBuffer;
        const read = await parquetReadObjects({
          file,
          compressors: { GZIP: (packed) => gunzipSync(packed) },
        });
        const shown = read.map((row) =>
          TYPES.map((type) =>
            row[type] instanceof Date ? (row[type] as Date).toISOString().slice(0, 10) : row[type],
          ),
        );
        expect(shown).toEqual(rowsOf(all));
      }),
      { numRuns: 60 },
    );
  });

  it("has one zero: a sign that comma-separated text does not show is not kept here either", () => {
    const codes = [0, 1, 0, 1];
    expect(mergedColumns("number", [{ values: [-0, 0], codes }], 4).values).toEqual([0]);
    expect(parquetCell("number", -0)).toBe(0);
  });

  it("is read by a database as it was written, also where groups are skipped by their ends", async () => {
    const duck = await (await DuckDBInstance.create(":memory:")).connect();
    const [all] = fc.sample(takes, { seed: 11, numRuns: 1 }) as [Takes];
    const path = join(folder, "table.parquet");
    writeFileSync(path, fileOf(all));
    const names = TYPES.map((type) => `"${type}"${type === "date" ? "::varchar" : ""}`).join(", ");
    const reader = await duck.runAndReadAll(`select ${names} from '${path}'`);
    expect(JSON.parse(JSON.stringify(reader.getRowsJS()))).toEqual(JSON.parse(JSON.stringify(rowsOf(all))));
    const numbers = rowsOf(all).map((row) => row[TYPES.indexOf("integer")] as number | null);
    for (const bound of [0, Math.max(...numbers.map(Number))]) {
      const counted = await duck.runAndReadAll(
        `select count(*)::int from '${path}' where "integer" >= ${bound}`,
      );
      expect(counted.getRows()[0]![0]).toBe(numbers.filter((one) => one !== null && one >= bound).length);
    }
  });

  it("tells the least and greatest text of a group in the order of bytes", () => {
    // In UTF-16, by which JavaScript compares, the second stands before the first.
    const values = ["\uff5e", "\u{1f3b9}", "a"];
    const schema = schemaOf([{ name: "text", type: "text" }]);
    const file = new ParquetFile(schema, []);
    const group = encodeGroup([{ name: "text", type: "text", values, codes: [0, 1, 2], statistics: true }])!;
    const bytes = Buffer.concat([file.begin(), file.add(group), file.end()]);
    const { row_groups } = parquetMetadata(
      bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.length) as ArrayBuffer,
    );
    const { statistics } = row_groups[0]!.columns[0]!.meta_data!;
    expect([statistics!.min_value, statistics!.max_value]).toEqual(["a", "\u{1f3b9}"]);
  });
});
