/** The account as plain text: what is not sure is asked there as on the page. */
import { expect, it } from "vitest";
import type { Analysis } from "../../src/account.ts";
import { accountText } from "../../src/export/text.ts";
import { demoAccount, demoClass } from "../demo-class.ts";

const sure = demoAccount(demoClass.takes.find(({ id }) => id === "maren-quick-change")!);
const question = (alignment: Partial<Analysis["alignment"]>) =>
  accountText({ ...sure, alignment: { ...sure.alignment, anchors: [], ...alignment } })
    .split("\n")
    .filter((line) => line.startsWith("Is this where you are?"));

it("asks nothing where the place is sure", () => {
  expect(question({ confidence: 1, alternatives: [] })).toEqual([]);
});

it("asks where the place is not sure, names what else is likely, and says how to settle it", () => {
  const [asked, ...more] = question({
    confidence: 0.85,
    alternatives: [
      { tempo: 90, choruses: 2, firstBar: 1, score: 0.3, why: "half as fast" },
      { tempo: 360, choruses: 8, firstBar: 1, score: 0.02, why: "twice as fast" },
    ],
  });
  expect(more).toEqual([]);
  expect(asked).toContain("90 a minute (half as fast, 30 % likely)");
  expect(asked).not.toContain("360");
  expect(asked).toContain("--tempo");
});
