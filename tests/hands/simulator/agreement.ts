import { formChart } from "../../../src/chart/index.ts";
import { explainHand, type HandShape } from "../../../src/hands/index.ts";
import { simulate } from "./play.ts";

/** Forms and keys that the simulated players play, in turn. */
const CHARTS: readonly (readonly [string, string])[] = [
  ["blues-basic", "F"],
  ["blues-quick-change", "Bb"],
  ["blues-minor", "Cm"],
  ["blues-quick-change", "G"],
  ["blues-basic", "Db"],
  ["blues-minor", "Em"],
];

export interface Agreement {
  readonly notes: number;
  /** Share of notes with the right placement; stray notes are right when they are in none. */
  readonly placements: number;
  readonly fingers: number;
}

/** Plays solos of three choruses with these shapes, one a seed, and counts how much of the truth is found again. */
export function agreementOverSeeds(
  shapes: readonly HandShape[],
  strays: number,
  seeds: readonly number[],
): Agreement {
  let [notes, placements, fingers] = [0, 0, 0];
  for (const seed of seeds) {
    const [form, key] = CHARTS[seed % CHARTS.length]!;
    const chart = formChart(form, key);
    const solo = simulate(chart, { seed, choruses: 3, shapes, strays });
    const account = explainHand(solo.notes, solo.spans, chart, { shapes, hand: "right" });
    const byId = new Map(account.placements.map((placement) => [placement.id, placement]));
    solo.truth.forEach((truth, i) => {
      const found = account.notes[i]!;
      const placement = found.placement === null ? null : byId.get(found.placement)!;
      notes++;
      if (
        (placement?.shape ?? null) === truth.shape &&
        (placement?.anchorPitch ?? null) === truth.anchorPitch
      ) {
        placements++;
      }
      if (truth.finger !== null && found.finger === truth.finger) fingers++;
      if (truth.finger === null) fingers++;
    });
  }
  return { notes, placements: placements / notes, fingers: fingers / notes };
}
