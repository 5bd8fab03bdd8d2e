import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { encodeRows, encodeTexts } from "../../server/corpus/text-rows.ts";

describe("rows put together from bytes", () => {
  it("are the UTF-8 of the same rows put together as text, in any script", () => {
    const text = fc.string({ unit: "grapheme", maxLength: 9 });
    const part = fc.integer({ min: 0, max: 12 }).chain((rows) =>
      fc.record({
        rows: fc.constant(rows),
        before: text,
        after: text,
        columns: fc.array(
          fc
            .array(text, { minLength: 1, maxLength: 5 })
            .chain((texts) =>
              fc
                .array(fc.integer({ min: 0, max: texts.length - 1 }), { minLength: rows, maxLength: rows })
                .map((codes) => ({ texts, codes: Uint32Array.from(codes) })),
            ),
          { maxLength: 6 },
        ),
      }),
    );
    fc.assert(
      fc.property(fc.array(part, { maxLength: 4 }), (parts) => {
        const plain = parts.flatMap(({ rows, before, after, columns }) =>
          Array.from(
            { length: rows },
            (_, i) => before + columns.map(({ texts, codes }) => texts[codes[i]!]!).join("") + after,
          ),
        );
        const encoded = parts.map(({ rows, before, after, columns }) => ({
          rows,
          ends: encodeTexts([before, after]),
          columns: columns.map(({ texts, codes }) => ({ texts: encodeTexts(texts), codes })),
        }));
        expect(Buffer.from(encodeRows(encoded))).toEqual(Buffer.from(plain.join(""), "utf8"));
      }),
    );
  });
});
