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

/** Long takes: chance has more room, and so has an idea. */
export const LONG: PlantedShape = { notes: 3000, motifs: 5, length: [7, 10], returns: [8, 12], spread: 3 };
const LONG_NOISE = [1000, 3000, 6000] as const;

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
    noise(PLANTED.notes, spread, takes);
    const long = Math.max(4, Math.round(takes / 4));
    console.log(`${line} of ${LONG.notes} notes, ${long} takes of each kind`);
    for (const planting of ["exact", "transposed", "varied"] as const) {
      const { recall, precision, told } = discoveryFigures(planting, { ...LONG, spread }, long, 1);
      console.log(
        `  ${planting.padEnd(10)} recall ${percent(recall)}, precision ${percent(precision)}, ` +
          `${(told / long).toFixed(1)} ideas a take`,
      );
    }
    for (const notes of LONG_NOISE) noise(notes, spread, Math.max(20, long));
  }
}

function noise(notes: number, spread: number, takes: number): void {
  const { told } = discoveryFigures("none", { ...PLANTED, notes, spread }, takes, 1001);
  console.log(
    `  pure noise of ${notes} notes, ${takes} takes: ${told} false ideas, ${((20 * told) / takes).toFixed(2)} in twenty takes`,
  );
}
