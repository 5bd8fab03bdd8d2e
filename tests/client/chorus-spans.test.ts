/** How the choruses of a long solo are taken together: by counting. */
import { describe, expect, it } from "vitest";
import { chorusSpans, spanFigures } from "../../client/views/chorus-spans.ts";

const upTo = (n: number) => Array.from({ length: n }, (_, i) => i + 1);

describe("choruses beside the picture", () => {
  it("stand one by one up to eight", () => {
    expect(chorusSpans(upTo(8))).toHaveLength(8);
    expect(chorusSpans([0, 1, 2]).map(spanFigures)).toEqual(["0", "1", "2"]);
  });

  it.each([9, 12, 13, 52, 301])("of %i are six spans that hold each of them once", (n) => {
    const spans = chorusSpans(upTo(n));
    expect(spans).toHaveLength(6);
    expect(spans.flatMap(({ first, last }) => upTo(last).slice(first - 1))).toEqual(upTo(n));
    const lengths = spans.map(({ first, last }) => last - first + 1);
    expect(Math.max(...lengths) - Math.min(...lengths)).toBeLessThanOrEqual(1);
  });

  it("are named by the first and the last", () => {
    expect(spanFigures({ first: 10, last: 18 })).toBe("10 to 18");
  });
});
