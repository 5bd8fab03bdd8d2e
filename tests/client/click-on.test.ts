import { describe, expect, it } from "vitest";
import { backingOf } from "../../client/sound/backing.ts";
import { parseChart } from "../../src/chart/index.ts";

/** Beats of a bar, from 1, on which the click falls. */
function clicked(meter: string, clickOn: "every beat" | "two and four"): number[] {
  const chart = parseChart(`key: C\nmeter: ${meter}\n| C6 |`);
  const { beats } = chart.meter;
  return backingOf(chart, [{ bar: 1, start: 0, end: beats }], new Set(["click"]), {
    steady: true,
    clickOn,
  }).map(({ onset }) => Math.round(onset) + 1);
}

describe("where the click falls", () => {
  // The backbeat of jazz: two and four. A waltz has it on two; in twelve eighths the felt beats are 1 4 7 10. [practice]
  it.each([
    ["4/4", [2, 4]],
    ["2/4", [2]],
    ["3/4", [2]],
    ["6/8", [4]],
    ["12/8", [4, 10]],
  ] as const)("on two and four as they are felt in %s", (meter, beats) => {
    expect(clicked(meter, "two and four")).toEqual(beats);
  });

  it("on every beat when nothing else is asked", () => {
    expect(clicked("4/4", "every beat")).toEqual([1, 2, 3, 4]);
    expect(clicked("3/4", "every beat")).toEqual([1, 2, 3]);
  });
});
