/** Cells that are taken over from JSON are those that are written from values. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { packBlock } from "../../server/corpus/block.ts";
import { openTokens } from "../../server/corpus/block-tokens.ts";
import { csvTexts, jsonTexts } from "../../server/corpus/text-cells.ts";
import type { EncodedTexts } from "../../server/corpus/text-rows.ts";
import { type Cell, csvCell, itemsOfCell } from "../../src/export/index.ts";

const awkward = fc.constantFrom(
  ...[
    "=1+1",
    "-2",
    "-2x",
    "+x",
    "@x",
    "\tx",
    "a,b",
    'say "yes"',
    "two\nlines",
    "a\u001fb",
    "",
    "null",
    "]",
    "\\",
  ],
  ...['{"values":[', '],"codes":"each"}', "b♭", "\u{1f3b9}"],
);
const cell: fc.Arbitrary<Cell> = fc.oneof(
  fc.string({ unit: "grapheme" }),
  awkward,
  fc.double({ noNaN: true, noDefaultInfinity: true }).map((value) => (Object.is(value, -0) ? 0 : value)),
  fc.integer(),
  fc.boolean(),
  fc.constant(null),
);
/** Different values, and a code for each row; the first column has a value for each row, another one alone. */
const block = fc.array(fc.uniqueArray(cell, { minLength: 1, maxLength: 9 }), { minLength: 1, maxLength: 5 });

function textsOf({ bytes, starts }: EncodedTexts): string[] {
  const buffer = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  return Array.from({ length: starts.length - 1 }, (_, i) =>
    buffer.toString("utf8", starts[i], starts[i + 1]),
  );
}

function opened(columns: readonly (readonly Cell[])[]) {
  const rows = Math.max(...columns.map((values) => values.length));
  const coded = columns.map((values) => ({
    values,
    codes: Uint32Array.from({ length: rows }, (_, i) => i % values.length),
  }));
  return { coded, tokens: openTokens(packBlock({ rows, columns: coded })) };
}

describe("cells of text tables", () => {
  it("are those of the values, in CSV and in JSON", () => {
    fc.assert(
      fc.property(block, (columns) => {
        const { coded, tokens } = opened(columns);
        expect(tokens.columns).toHaveLength(columns.length);
        tokens.columns.forEach((column, k) => {
          expect([...column.codes]).toEqual([...coded[k]!.codes]);
          expect(textsOf(csvTexts(",", column))).toEqual(columns[k]!.map((value) => `,${csvCell(value)}`));
          expect(textsOf(jsonTexts('"n":', "text", column))).toEqual(
            columns[k]!.map((value) => `"n":${JSON.stringify(value)}`),
          );
        });
      }),
    );
  });

  it("are lists where a column holds lists", () => {
    const { tokens } = opened([["a\u001fb c", "", null, "one"]]);
    expect(textsOf(jsonTexts("", "list", tokens.columns[0]!))).toEqual(
      ["a\u001fb c", "", null, "one"].map((value) => JSON.stringify(itemsOfCell(value))),
    );
    expect(textsOf(csvTexts("", tokens.columns[0]!))).toEqual(["a b c", "", "", "one"]);
  });
});
