import { describe, expect, it } from "vitest";
import { HIGHEST_KEY, nextPage } from "../../client/practice/page-turns.ts";
import { LOWEST_KEY } from "../../client/record/free-time.ts";

/** Three exercises below a head of 200 pixels; the second one is longer than the window. */
const TOPS = [200, 700, 2100];
const END = 2600;
const turn = (at: number, direction: "on" | "back") => nextPage(TOPS, END, at, 800, direction);

describe("turning the pages of a sheet", () => {
  it("goes from exercise to exercise", () => {
    expect(turn(0, "on")).toBe(200);
    expect(turn(200, "on")).toBe(700);
    expect(turn(2100, "back")).toBe(1420);
    expect(turn(700, "back")).toBe(200);
    expect(turn(200, "back")).toBe(0);
  });

  it("shows all of an exercise that is longer than the window before the next one", () => {
    expect(turn(700, "on")).toBe(1380);
    expect(turn(1380, "on")).toBe(2100);
  });

  it("stays at the end, and at the beginning", () => {
    expect(turn(2100, "on")).toBe(2100);
    expect(turn(0, "back")).toBe(0);
    expect(nextPage([], 0, 0, 800, "on")).toBe(0);
  });

  it("uses the outermost keys of a piano of 88: A0 and C8", () => {
    expect([LOWEST_KEY, HIGHEST_KEY]).toEqual([21, 108]);
    expect(HIGHEST_KEY - LOWEST_KEY + 1).toBe(88);
  });
});
