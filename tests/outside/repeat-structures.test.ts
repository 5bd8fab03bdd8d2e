/** Every repeat structure of the table is played as players play it, and says what was understood. */
import { describe, expect, it } from "vitest";
import { readTake } from "../../src/ingest/index.ts";
import { attributes, bar, document, note, score } from "../ingest/score-text.ts";
import { REPEAT_STRUCTURES, signsOfBar } from "./repeat-structures.ts";

function takeOf(bars: readonly string[]) {
  const bytes = score(
    ...bars.map((signs, index) => {
      const { before, behind } = signsOfBar(signs);
      return bar(index + 1, (index === 0 ? attributes(1) : "") + before + note("C4", 4) + behind);
    }),
  );
  return readTake(bytes, { name: "structure" });
}

describe("repeat structures as scores have them", () => {
  it("are at least seventy-five, each with a name of its own", () => {
    expect(new Set(REPEAT_STRUCTURES.map(({ name }) => name)).size).toBe(REPEAT_STRUCTURES.length);
    expect(REPEAT_STRUCTURES.length).toBeGreaterThanOrEqual(75);
  });

  it.each(REPEAT_STRUCTURES)("$name ($source)", ({ bars, order, told = [] }) => {
    const take = takeOf(bars);
    expect(take.bars.map(({ number }) => number).join(" ")).toBe(order);
    const codes = take.warnings.map(({ code }) => code);
    for (const code of told) expect(codes).toContain(code);
    const silent = bars.some((_, index) => !order.split(" ").includes(String(index + 1)));
    expect(codes.includes("bars-not-played")).toBe(silent);
  });

  // Gould: what stands in one part holds for all of them.
  it.each([
    ["the lower of two parts alone has the signs", 2],
    ["both parts have them", 1],
  ])("%s", (_, from) => {
    const structure = [".", "segno", '"To Coda"', '"D.S. al Coda"', "coda", "."];
    const parts = [1, 2].map((number) => {
      const bars = structure.map((signs, index) => {
        const { before, behind } = number >= from ? signsOfBar(signs) : { before: "", behind: "" };
        return bar(index + 1, (index === 0 ? attributes(1) : "") + before + note("C4", 4) + behind);
      });
      return `<part id="P${number}">${bars.join("")}</part>`;
    });
    const names = [1, 2].map(
      (number) => `<score-part id="P${number}"><part-name>Part ${number}</part-name></score-part>`,
    );
    const take = readTake(document(`<part-list>${names.join("")}</part-list>${parts.join("")}`), {
      name: "two parts",
    });
    expect(take.bars.map(({ number }) => number).join(" ")).toBe("1 2 3 4 2 3 5 6");
    expect(take.notes).toHaveLength(16);
  });

  it("signs that stand at the lower staff of a part hold for the part", () => {
    const lower = (content: string) =>
      `<direction><direction-type>${content}</direction-type><staff>2</staff></direction>`;
    const both = (signs = "") =>
      `${note("C5", 4, "", 1, "<staff>1</staff>")}<backup><duration>4</duration></backup>${signs}${note("C3", 4, "", 2, "<staff>2</staff>")}`;
    const take = readTake(
      score(
        bar(1, attributes(1, 4, 4, "<staves>2</staves>") + both()),
        bar(2, both(lower("<segno/>"))),
        bar(3, both(lower("<words>Fine</words>"))),
        bar(4, both(lower("<words>D.S. al Fine</words>"))),
      ),
      { name: "two staves" },
    );
    expect(take.bars.map(({ number }) => number).join(" ")).toBe("1 2 3 4 2 3");
    expect(take.notes).toHaveLength(12);
  });
});
