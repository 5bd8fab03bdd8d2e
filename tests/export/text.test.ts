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

const before = (text: string) => text.split("\n").find((line) => line.startsWith("If "));

it("sets before the notes what their account rests on, and nothing where that is sure", () => {
  const unsure = { ...sure, alignment: { ...sure.alignment, confidence: 0.35 } };
  expect(before(accountText(sure))).toBeUndefined();
  expect(before(accountText(unsure))).toBe("If the bar lines lie so (35 % sure):");
  const chartFit = { verdict: "does not fit", score: 0.1, better: [] } as const;
  const wrong = {
    ...sure,
    alignment: { ...sure.alignment, confidence: 0.95, chartFit: { ...chartFit, better: [] } },
  };
  expect(before(accountText(wrong))).toBe("If this is the chart:");
  const confirmed = { ...wrong, options: { ...wrong.options, chartConfirmed: true } };
  expect(before(accountText(confirmed))).toBeUndefined();
});

it("does not tell to say a tempo that was said already", () => {
  const told = { ...sure, options: { ...sure.options, tempo: 120 } };
  const text = accountText({ ...told, alignment: { ...sure.alignment, confidence: 0.4, anchors: [] } });
  expect(text).toContain("Is this where you are?");
  expect(text).not.toContain("--tempo");
});

it("names an answer about the hands as the command line does", () => {
  const asked = { code: "line-lies-low", message: "Say which hand (soloHand: left)", where: null };
  const text = accountText({ ...sure, warnings: [asked] });
  expect(text).toContain("Note: Say which hand (--solo-hand left)\n");
});
