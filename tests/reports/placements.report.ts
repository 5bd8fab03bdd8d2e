/**
 * `npm run report -- placements [SOLOS]`: how much of the truth is found again in simulated solos, and in the demo
 * takes where the corpus is at hand.
 */
import { BUILT_IN_SHAPES, type HandShape } from "../../src/hands/index.ts";
import { corpusAgreement } from "../hands/corpus-agreement.ts";
import { agreementOverSeeds } from "../hands/simulator/agreement.ts";

const SETS: readonly (readonly [names: readonly string[], strays: number])[] = [
  ...BUILT_IN_SHAPES.map(({ name }) => [[name], 0] as const),
  [["third-and-steps"], 0.05],
  [["third-and-steps", "minor pentatonic", "major pentatonic"], 0.05],
  [["third-and-steps", "five-finger major", "five-finger minor"], 0.05],
  [["third-steps-third", "five-finger major", "minor pentatonic"], 0.05],
];

export function report(args: string[]): void {
  const solos = Number(args[0] ?? 36);
  const seeds = Array.from({ length: solos }, (_, k) => 3000 + k);
  console.log(`Simulated solos, ${solos} of each, three choruses:\n`);
  console.log(`${"shapes".padEnd(60)}strays   notes  placements  fingers`);
  for (const [names, strays] of SETS) {
    const shapes = names.map((name): HandShape => BUILT_IN_SHAPES.find((shape) => shape.name === name)!);
    const found = agreementOverSeeds(shapes, strays, seeds);
    console.log(
      `${names.join(", ").padEnd(60)}${`${100 * strays} %`.padStart(6)}${String(found.notes).padStart(8)}` +
        `${percent(found.placements)}${percent(found.fingers)}`,
    );
  }
  console.log("\nDemo takes, through the whole analysis, with all shapes offered:\n");
  for (const row of corpusAgreement()) {
    console.log(
      `${row.take.padEnd(60)}${String(row.notes).padStart(14)}${percent(row.placements)}${percent(row.fingers)}`,
    );
  }
}

function percent(share: number): string {
  return `${(100 * share).toFixed(1)} %`.padStart(11);
}
