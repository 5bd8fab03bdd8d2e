/** `npm run report -- motifs [TAKES]`: how well motifs are found in invented lines where it is known what is there. */
import { findMotifs } from "../../src/motif/index.ts";
import { establishment, occurrenceScore } from "../motif/establishment.ts";
import {
  occurrenceSets,
  type PlantedShape,
  type Planting,
  plantedTake,
  scoreDiscovery,
} from "../motif/planted.ts";

/**
 * Over so many takes of one kind: recall of planted occurrences and precision of the ideas told, and the means of the
 * published establishment and occurrence scores.
 */
export function discoveryFigures(planting: Planting, shape: PlantedShape, takes: number, firstSeed: number) {
  let [planted, found, told, right] = [0, 0, 0, 0];
  let [established, occurring] = [0, 0];
  for (let seed = firstSeed; seed < firstSeed + takes; seed++) {
    const take = plantedTake(seed, planting, shape);
    const motifs = findMotifs(take.notes, { seed: 1 });
    const score = scoreDiscovery(take, motifs);
    const sets = occurrenceSets(take, motifs);
    established += establishment(sets.truth, sets.found).f1 / takes;
    occurring += occurrenceScore(sets.truth, sets.found, 0.75).f1 / takes;
    planted += score.planted;
    found += score.found;
    told += score.told;
    right += score.right;
  }
  return {
    recall: found / planted,
    precision: told === 0 ? 1 : right / told,
    told,
    planted,
    established,
    occurring,
  };
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
      const { recall, precision, told, established, occurring } = discoveryFigures(
        planting,
        { ...shape, spread },
        takes,
        1,
      );
      console.log(
        `  ${planting.padEnd(10)} recall ${percent(recall)}, precision ${percent(precision)}, ` +
          `establishment F1 ${established.toFixed(3)}, occurrence F1 ${occurring.toFixed(3)}, ` +
          `${(told / takes).toFixed(1)} ideas a take`,
      );
    }
    const { told } = discoveryFigures("none", { ...PLANTED, spread }, takes, 1001);
    console.log(`  pure noise ${told} false ideas, ${((20 * told) / takes).toFixed(2)} in twenty takes`);
  }
}
