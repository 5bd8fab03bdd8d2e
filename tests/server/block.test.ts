import { describe, expect, it } from "vitest";
import { blockName, blockOf, openBlock, packBlock } from "../../server/corpus/block.ts";
import { analyse } from "../../src/analyse.ts";
import { TABLE_NAMES, TABLES } from "../../src/export/index.ts";
import { generatedTake } from "./scale.ts";

describe("a table of an account as a block", () => {
  const { bytes, chart } = generatedTake(7);
  const analysis = analyse(bytes, chart, {});

  it.each(TABLE_NAMES)("gives every cell back as the table has it: %s", (name) => {
    const table = TABLES[name];
    const { rows, columns } = openBlock(packBlock(blockOf(table, analysis)));
    const back = Array.from({ length: rows }, (_, i) =>
      columns.map(({ values, codes }) => values[codes[i]!]),
    );
    expect(back).toEqual(table.rows(analysis).map((row) => table.columns.map((column) => column.value(row))));
  });

  it("opens when it has no rows", () => {
    const empty = { ...analysis, notes: [] };
    expect(openBlock(packBlock(blockOf(TABLES.notes, empty))).rows).toBe(0);
  });

  it("is kept under a name that tells its columns", () => {
    expect(new Set(TABLE_NAMES.map(blockName)).size).toBe(TABLE_NAMES.length);
    for (const name of TABLE_NAMES) expect(blockName(name)).toMatch(new RegExp(`^${name} [0-9a-f]{12}$`));
  });
});
