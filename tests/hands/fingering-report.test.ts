/**
 * The command that measures a folder of scores, on scales with the handbooks' printed fingers (sources in
 * handbooks.ts), and the weights of the fingering rules on rows that they were not fitted to.
 */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it, vi } from "vitest";
import { explainHands } from "../../src/hands/index.ts";
import { weightsOf } from "../../src/hands/line-weights.ts";
import { report } from "../reports/fingering.report.ts";
import { drawPoints } from "./drawing/draw.ts";
import { examplesOf, handbookExamples, readScores } from "./drawing/examples.ts";
import { FactSets, pointsOf } from "./drawing/lattice.ts";
import { halfOfScores, hasFingeredScores } from "./fingered-halves.ts";
import type { HANDBOOK_ROWS } from "./handbooks.ts";
import { heldOutFigures } from "./held-out.ts";
import { printedAgreement } from "./printed-agreement.ts";
import { scaleScores } from "./scale-scores.ts";
import { isStudy } from "./studies.ts";

/** Steps of the drawing that are enough for a test: most is gained in the first ones. */
const FEW_STEPS = 8;

const folder = mkdtempSync(join(tmpdir(), "printed-fingers-"));
afterAll(() => rmSync(folder, { recursive: true }));

function printed(args: string[]): string {
  const lines: string[] = [];
  const spy = vi.spyOn(console, "log").mockImplementation((line = "") => void lines.push(String(line)));
  try {
    report(args);
  } finally {
    spy.mockRestore();
  }
  return lines.join("\n");
}

describe("the report of a folder of fingered scores", () => {
  it("takes the printed fingers away, infers them, and says what it measured beside baseline and literature", () => {
    const rows = (row: (typeof HANDBOOK_ROWS)[number]) => row.kind === "major scale" && row.hand === "right";
    for (const { name, bytes } of scaleScores(rows)) writeFileSync(join(folder, name), bytes);
    writeFileSync(join(folder, "no-music.xml"), "<letter/>");
    const text = printed([folder]);
    // Twelve scales of fifteen notes up and fourteen down, every one with a printed finger.
    expect(text).toContain(`Measured: ${12 * 29} notes with a printed finger in 12 scores`);
    const [, notes, inferred, commonest] = /^all\s+(\d+)\s+([\d.]+) %\s+([\d.]+) %/m.exec(text)!;
    expect(Number(notes)).toBe(12 * 29);
    expect(Number(inferred)).toBeGreaterThan(85);
    // A scale of two octaves up and down has its commonest finger on a third of the notes or so.
    expect(Number(commonest)).toBeGreaterThan(25);
    expect(Number(commonest)).toBeLessThan(45);
    expect(text).toContain("Nakamura, Saito and Yoshii 2020");
    expect(text).toContain("no-music.xml: ");
  });

  it("says that nothing was measured where no score has printed fingers", () => {
    const empty = mkdtempSync(join(tmpdir(), "no-fingers-"));
    expect(printed([empty])).toContain("Nothing was measured");
    rmSync(empty, { recursive: true });
  });
});

describe("a score is a study", () => {
  const score = (title: string, composer: string) =>
    `<score-partwise><work><work-title>${title}</work-title></work><identification>` +
    `<creator type="composer">${composer}</creator></identification></score-partwise>`;

  it.each([
    ["Study in thirds", "N. N.", true],
    ["Zwölf Etüden", "N. N.", true],
    ["Étude no. 3", "N. N.", true],
    ["Op. 599 no. 63", "C. Czerny", true],
    ["Invention in C", "N. N.", false],
    ["Sturdy Sonatina", "N. N.", false],
  ])("where its title or its author says so: %s by %s, %s", (title, composer, study) => {
    expect(isStudy(join(folder, "x.musicxml"), score(title, composer))).toBe(study);
  });

  it("or where the list beside it names an author of studies", () => {
    const listed = mkdtempSync(join(tmpdir(), "listed-scores-"));
    writeFileSync(join(listed, "MANIFEST.tsv"), "id\tcomposer\none\tczerny\ntwo\tnobody\n");
    expect(isStudy(join(listed, "one.musicxml"), null)).toBe(true);
    expect(isStudy(join(listed, "two.musicxml"), null)).toBe(false);
    rmSync(listed, { recursive: true });
  });
});

describe("scores that others fingered", () => {
  it.skipIf(!hasFingeredScores)(
    "have their printed fingers more often than by the published rules, by points drawn without them",
    () => {
      const sets = new FactSets();
      const examples = [...examplesOf(readScores(halfOfScores("drawn by")), sets), ...handbookExamples(sets)];
      const weights = weightsOf(pointsOf(drawPoints(examples, sets, FEW_STEPS)));
      let [notes, inferred, simple, commonest] = [0, 0, 0, 0];
      for (const { take } of readScores(halfOfScores("held out"))) {
        const found = printedAgreement(take, (line, spans, chart, options) =>
          explainHands(line, spans, chart, { ...options, weights }),
        );
        for (const hand of found === null ? [] : [found.right, found.left]) {
          notes += hand.notes;
          inferred += hand.inferred;
          simple += hand.simple;
          commonest += hand.commonest;
        }
      }
      // 17 keyboard scores, one of them with numbers that no hand can play; every other one is held out.
      expect(notes).toBeGreaterThan(1000);
      expect(inferred).toBeGreaterThan(simple);
      expect(inferred).toBeGreaterThan(1.8 * commonest);
      expect(inferred / notes).toBeGreaterThan(0.57);
    },
    300_000,
  );
});

describe("weights fitted to other keys", () => {
  it("finger the keys that were held out better than the published rules do", () => {
    for (const { heldOut, published } of heldOutFigures((name) => name.startsWith("three keys (C"))) {
      expect(heldOut).toBeGreaterThan(published);
    }
  });
});
