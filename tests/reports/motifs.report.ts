/** `npm run report -- motifs [TAKES]`: how well motifs are found in invented lines where it is known what is there. */
import { findMotifs } from "../../src/motif/index.ts";
import { type PlantedShape, type Planting, plantedTake, scoreDiscovery } from "../motif/planted.ts";

/** Recall and precision over so many takes of one kind, and the mean number of ideas told. */
export function discoveryFigures(planting: Planting, shape: PlantedShape, takes: number, firstSeed: number) {
  let [planted, found, told, right] = [0, 0, 0, 0];
  for (let seed = firstSeed; seed < firstSeed + takes; seed++) {
    const take = plantedTake(seed, planting, shape);
    const score = scoreDiscovery(take, findMotifs(take.notes, { seed: 1 }));
    planted += score.planted;
    found += score.found;
    told += score.told;
    right += score.right;
  }
  return { recall: found / planted, precision: told === 0 ? 1 : right / told, told, planted };
}

export const PLANTED: PlantedShape = { notes: 240, motifs: 3, length: [6, 9], returns: [4, 6], spread: 3 };
export const VARIED: PlantedShape = { notes: 240, motifs: 2, length: [8, 10], returns: [5, 7], spread: 3 };

/** Noise that leaps about, and noise that goes by step as lines do. */
const LINES = [
  ["leaping lines", 3],
  ["stepwise lines", 1.5],
] as const;

export function report(args: string[]): void {
  const takes = Number(args[0] ?? 40);
  const percent = (x: number) => `${(100 * x).toFixed(1)} %`;
  for (const [line, spread] of LINES) {
    console.log(`${line}, ${takes} takes of each kind`);
    for (const [planting, shape] of [
      ["exact", PLANTED],
      ["transposed", PLANTED],
      ["varied", VARIED],
    ] as const) {
      const { recall, precision, told } = discoveryFigures(planting, { ...shape, spread }, takes, 1);
      console.log(
        `  ${planting.padEnd(10)} recall ${percent(recall)}, precision ${percent(precision)}, ` +
          `${(told / takes).toFixed(1)} ideas a take`,
      );
    }
    const { told } = discoveryFigures("none", { ...PLANTED, spread }, takes, 1001);
    console.log(`  pure noise ${told} false ideas, ${((20 * told) / takes).toFixed(2)} in twenty takes`);
  }
}
