/** Every repeat structure of the table is played as players play it, and says what was understood. */
import { describe, expect, it } from "vitest";
import { readTake } from "../../src/ingest/index.ts";
import { attributes, bar, note, score } from "../ingest/score-text.ts";
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
  it("are at least thirty, each with a name of its own", () => {
    expect(new Set(REPEAT_STRUCTURES.map(({ name }) => name)).size).toBe(REPEAT_STRUCTURES.length);
    expect(REPEAT_STRUCTURES.length).toBeGreaterThanOrEqual(30);
  });

  it.each(REPEAT_STRUCTURES)("$name ($source)", ({ bars, order, told = [] }) => {
    const take = takeOf(bars);
    expect(take.bars.map(({ number }) => number).join(" ")).toBe(order);
    const codes = take.warnings.map(({ code }) => code);
    for (const code of told) expect(codes).toContain(code);
    const silent = bars.some((_, index) => !order.split(" ").includes(String(index + 1)));
    expect(codes.includes("bars-not-played")).toBe(silent);
  });
});
