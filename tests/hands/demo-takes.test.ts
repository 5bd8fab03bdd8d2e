import { expect, it } from "vitest";
import { corpusAgreement } from "./corpus-agreement.ts";

it("finds the true placement of at least 95 in 100 notes of the demo takes, with all shapes offered", () => {
  const rows = corpusAgreement();
  expect(rows.length).toBeGreaterThanOrEqual(12);
  const notes = rows.reduce((sum, row) => sum + row.notes, 0);
  const right = rows.reduce((sum, row) => sum + row.placements * row.notes, 0);
  expect(right / notes).toBeGreaterThanOrEqual(0.95);
  for (const row of rows) expect(row.placements, row.take).toBeGreaterThanOrEqual(0.85);
});
