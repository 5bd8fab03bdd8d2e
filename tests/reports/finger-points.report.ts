/**
 * `npm run report -- finger-points FOLDER [all | held-out]`: draws the points of fingers by the fingered scores of a
 * folder and the handbooks. `held-out` (as is usual) holds out a fifth of the music in turn, two editions of one piece
 * together, and says how often its printed fingers are met by points that were drawn without it; `all` draws them once
 * by everything and prints `src/hands/finger-points.ts`. Both are deterministic.
 */
import { readdirSync, readFileSync } from "node:fs";
import { basename, join } from "node:path";
import { FACT_KINDS, type FactKind } from "../../src/hands/finger-features.ts";
import { explainHands } from "../../src/hands/index.ts";
import { weightsOf } from "../../src/hands/line-weights.ts";
import { drawPoints } from "../hands/drawing/draw.ts";
import { examplesOf, handbookExamples, readScores, type Score } from "../hands/drawing/examples.ts";
import { FactSets, pointsOf } from "../hands/drawing/lattice.ts";
import { printedAgreement } from "../hands/printed-agreement.ts";
import { isStudy } from "../hands/studies.ts";

export function report([folder, what = "held-out"]: string[]): void {
  if (folder === undefined) {
    console.log("Give a folder of scores in which fingers are printed.");
    return;
  }
  const files = readdirSync(folder).filter((file) => file.endsWith(".musicxml"));
  const scores = readScores(files.map((file) => join(folder, file)));
  if (what === "all") printPoints(scores);
  else holdOut(scores);
}

/** Decimals of a point that are kept: a hundredth of a point decides nothing. */
const DECIMALS = 2;

function printPoints(scores: readonly Score[]): void {
  const sets = new FactSets();
  const points = pointsOf(drawPoints([...examplesOf(scores, sets), ...handbookExamples(sets)], sets));
  console.log(`/**
 * Points of every fact of \`finger-features.ts\`, drawn by \`npm run report -- finger-points FOLDER all\` from the published
 * rules by the printed fingers of ${scores.length} scores and by the scales and arpeggios of two handbooks: under these points they are
 * likeliest. The more a fingering costs, the less likely it is; one point is a factor of 2.7.
 */
import type { FingerPoints } from "./finger-features.ts";

export const FINGER_POINTS: FingerPoints = {`);
  for (const kind of Object.keys(FACT_KINDS) as FactKind[]) {
    const row = Array.from(points[kind], (one) => Number(one.toFixed(DECIMALS)) + 0);
    console.log(`  ${kind}: [${row.join(", ")}],`);
  }
  console.log("};");
}

interface Row {
  readonly study: boolean;
  readonly hand: "right" | "left";
  readonly notes: number;
  readonly inferred: number;
}

/** Parts that the music is held out in. */
const PARTS = 5;

function holdOut(scores: readonly Score[]): void {
  const rows: Row[] = [];
  const names = [...new Set(scores.map(({ music }) => music))];
  for (let part = 0; part < PARTS; part++) {
    const isHeldOut = ({ music }: Score) => names.indexOf(music) % PARTS === part;
    const sets = new FactSets();
    const rest = scores.filter((score) => !isHeldOut(score));
    const weights = weightsOf(
      pointsOf(drawPoints([...examplesOf(rest, sets), ...handbookExamples(sets)], sets)),
    );
    for (const { file, take } of scores.filter(isHeldOut)) {
      const found = printedAgreement(take, (notes, spans, chart, options) =>
        explainHands(notes, spans, chart, { ...options, weights }),
      );
      if (found === null) continue;
      const study = isStudy(file, readFileSync(file, "utf8"));
      for (const hand of ["right", "left"] as const) {
        rows.push({ study, hand, ...found[hand] });
        if (found[hand].notes > 0) print(`${basename(file)}, ${hand}`, [{ study, hand, ...found[hand] }]);
      }
    }
  }
  console.log("\nEach score by points that were drawn without it:");
  for (const [name, passes] of [
    ["studies", ({ study }: Row) => study],
    ["pieces", ({ study }: Row) => !study],
    ["all", () => true],
  ] as const) {
    const some = rows.filter(passes);
    print(name, some);
    for (const hand of ["right", "left"] as const)
      print(
        `  ${name}, ${hand} hands`,
        some.filter((row) => row.hand === hand),
      );
  }
}

function print(name: string, rows: readonly Row[]): void {
  const sum = (of: (row: Row) => number) => rows.reduce((all, row) => all + of(row), 0);
  const [notes, inferred] = [sum((row) => row.notes), sum((row) => row.inferred)];
  console.log(
    `${name.padEnd(36)}${String(notes).padStart(6)}${((100 * inferred) / Math.max(1, notes)).toFixed(1).padStart(8)} %`,
  );
}
