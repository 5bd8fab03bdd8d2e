/**
 * Scales and root-position arpeggios in all keys, both hands, against two handbooks' fingerings (sources in
 * tests/hands/handbooks.ts). Lines are fingered by their cost for the hand alone: no scale is known by heart, as none is
 * where a line is only a piece of one. The rows are among the examples that points were drawn by (so that the floors
 * stand little below what was measured); scales and arpeggios of a take are known by heart (finger-five-keys.test.ts).
 * Left-hand scales are printed so that the thumbs meet, which costs the hand nothing and is not modelled.
 * The figures row by row: `npm run report -- fingering`.
 */
import { describe, expect, it } from "vitest";
import { LINE_FINGERING } from "../../src/hands/line-weights.ts";
import { fingersOf, handbookAgreement } from "../hands/handbook-agreement.ts";
import { HANDBOOK_ROWS, type HandbookRow } from "../hands/handbooks.ts";

describe("the handbooks' rows", () => {
  it("cover four kinds in twelve keys for two hands, a finger for every key", () => {
    expect(HANDBOOK_ROWS).toHaveLength(4 * 12 * 2);
    for (const row of HANDBOOK_ROWS) {
      expect(row.a, row.name).toHaveLength(row.keys.length);
      expect(row.b, row.name).toHaveLength(row.keys.length);
    }
  });

  it("never put the thumb on a black key in a scale", () => {
    for (const row of HANDBOOK_ROWS.filter(({ kind }) => kind.endsWith("scale"))) {
      row.keys.forEach((key, i) => {
        if ([1, 3, 6, 8, 10].includes(key % 12)) expect(row.a[i], `${row.name}, key ${key}`).not.toBe("1");
      });
    }
  });
});

describe("inferred fingers", () => {
  it.each<[HandbookRow["kind"], "right" | "left", number]>([
    ["major scale", "right", 0.96],
    ["major scale", "left", 0.85],
    ["harmonic minor scale", "right", 0.88],
    ["harmonic minor scale", "left", 0.9],
    ["major arpeggio", "right", 0.95],
    ["major arpeggio", "left", 0.95],
    ["minor arpeggio", "right", 0.94],
    ["minor arpeggio", "left", 0.95],
  ])("agree with a handbook in a %s, %s hand", (kind, hand, share) => {
    const { notes, either } = handbookAgreement(
      (row) => row.kind === kind && row.hand === hand,
      LINE_FINGERING,
    );
    expect(either / notes).toBeGreaterThanOrEqual(share);
  });

  it("play C major with the right hand as every handbook has it", () => {
    const row = HANDBOOK_ROWS.find(({ name }) => name === "C major scale, right hand")!;
    expect(fingersOf(row, LINE_FINGERING)).toEqual({ up: "123123412312345", down: "123123412312345" });
  });
});
