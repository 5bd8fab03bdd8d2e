/** How patterns are printed: signs and fractions as scores and books on melody print them [practice]. */
import { expect, it } from "vitest";
import { printedPattern } from "../../client/shell/printed-pattern.ts";

it.each([
  ["chromatic interval", [2, 0, -1], "+2 0 −1"],
  ["interval and rhythm", ["-5, 0.5 beats", "+2, 1 beat"], "−5 +2, lengths ½ 1 beats"],
  ["interval and rhythm", ["-3, 0.333 beats", "+1, 1.667 beats"], "−3 +1, lengths ⅓ 1⅔ beats"],
  ["rhythm", ["1 beat", "0.5 beats", "0.1 beats"], "1 ½ 0.10 beats"],
  ["degree", ["b3", "9", "#11"], "♭3 9 ♯11"],
  ["contour", ["up", "down"], "up, down"],
  ["finger", [1, 2, 5], "1 2 5"],
] as const)("%s %j is printed %s", (viewpoint, symbols, printed) => {
  expect(printedPattern({ viewpoint, symbols })).toBe(printed);
});
