/**
 * What is said of each take of the class, read and approved by a teacher's eye. After a change that was meant,
 * `APPROVE=1 npx vitest run tests/findings/approved.test.ts` writes the texts anew: read them before they are kept.
 */
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { ManifestTake } from "../../corpus/corpus-files.ts";
import { BUILT_IN_SHAPES } from "../../src/hands/index.ts";
import { practiceSheet } from "../../src/practice/index.ts";
import { demoAccount, demoClass } from "../demo-class.ts";

const approved = new URL("./approved/", import.meta.url);

function page(take: ManifestTake): string {
  const analysis = demoAccount(take);
  const sheet = practiceSheet(analysis, BUILT_IN_SHAPES);
  return [
    `${take.title} (${take.player}, ${take.tags.join(", ")})`,
    "",
    ...analysis.findings.map((one) => `${one.kind} | ${one.heading} | ${one.text}`),
    "",
    ...sheet.exercises.map((one) => `exercise | ${one.kind} | ${one.title}: ${one.text}`),
    "",
  ].join("\n");
}

describe.each(demoClass.takes)("what is said of $id", (take) => {
  const file = new URL(`${take.id}.txt`, approved);
  const text = page(take);

  it("is what was approved", () => {
    if (process.env.APPROVE === "1") {
      mkdirSync(approved, { recursive: true });
      writeFileSync(file, text);
    }
    expect(existsSync(file)).toBe(true);
    expect(text).toBe(readFileSync(file, "utf8"));
  });

  it("is kind and whole: at most three of each, no mark, no braces", () => {
    const lines = text.split("\n");
    for (const kind of ["works", "practise", "notice"]) {
      expect(lines.filter((line) => line.startsWith(`${kind} |`)).length).toBeLessThanOrEqual(
        kind === "notice" ? 4 : 3,
      );
    }
    expect(text).not.toMatch(/[{}]|undefined|NaN|\bbad\b|\bwrong\b|\bpoor\b|out of ten/);
  });
});

it("are twelve different things of two takes that a teacher opens one after the other", () => {
  const [one, other] = ["bram-quick-change", "bram-minor-blues"].map((id) =>
    demoAccount(demoClass.takes.find((take) => take.id === id)!).findings.map((finding) => finding.id),
  ) as [string[], string[]];
  expect([one.length, other.length, new Set([...one, ...other]).size]).toEqual([6, 6, 12]);
});
