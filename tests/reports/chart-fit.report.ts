/**
 * `npm run report -- chart-fit`: how often a wrong chart is noticed and a right one doubted, on open solos placed by
 * hand. Learns the tables and weights of `src/harmony/chart-fit.ts` from one half and prints figures for the other.
 */
import {
  chartLikelihood,
  FIT_LIMITS,
  FIT_WEIGHTS,
  KIND_SHARES,
  kindsOf,
} from "../../src/harmony/chart-fit.ts";
import { type ChartTrial, chartTrials, notesUnder, solosOnCharts } from "../outside/chart-trials.ts";
import { OPEN_SOLOS_MISSING } from "../outside/open-solos.ts";
import { learnLogistic } from "./logistic.ts";

export function report(): void {
  if (OPEN_SOLOS_MISSING !== null) {
    console.log(`skipped: ${OPEN_SOLOS_MISSING}`);
    return;
  }
  const all = solosOnCharts();
  const shares = { step: [0, 0, 0, 0, 0, 0, 0], leap: [0, 0, 0, 0, 0, 0, 0], breath: [0, 0, 0, 0, 0, 0, 0] };
  for (const solo of all.filter(({ solo: { half } }) => half === 0)) {
    const kinds = kindsOf(solo.spans);
    for (const note of notesUnder(solo, solo)) {
      const span = kinds[note.span];
      if (span != null) shares[note.left][span.kind[note.pitch % 12]!]!++;
    }
  }
  for (const [left, counts] of Object.entries(shares)) {
    const sum = counts.reduce((a, b) => a + b, 0);
    const learned = counts.map((n) => (n / sum).toFixed(3)).join(" ");
    console.log(`${left}: ${learned} (in use ${KIND_SHARES[left as keyof typeof shares].join(" ")})`);
  }
  const trials = [...chartTrials(0, all), ...chartTrials(1, all)];
  const fitted = trials.filter(({ half }) => half === 0);
  const wrong = fitted.filter(({ kind }) => kind !== "own").length;
  const own = fitted.length - wrong;
  const weights = learnLogistic(
    fitted.map(({ features }) => features),
    fitted.map(({ kind }) => kind === "own"),
    { ridge: 0.1, weight: (i) => (fitted[i]!.kind === "own" ? wrong / own : 1) },
  );
  console.log(`weights ${weights.join(", ")} (in use ${FIT_WEIGHTS.join(", ")})`);
  for (const half of [0, 1]) {
    console.log(half === 0 ? "learned from:" : "held out:");
    const kinds = new Map<string, ChartTrial[]>();
    for (const trial of trials.filter((t) => t.half === half)) {
      kinds.set(trial.kind, [...(kinds.get(trial.kind) ?? []), trial]);
    }
    for (const [kind, list] of kinds) {
      const share = (test: (score: number) => boolean) =>
        `${((100 * list.filter(({ features }) => test(chartLikelihood(features))).length) / list.length).toFixed(1)} %`;
      console.log(
        `  ${kind.padEnd(6)} ${list.length} trials: fits ${share((s) => s >= FIT_LIMITS.fits)}, does not fit ${share((s) => s < FIT_LIMITS.wrong)}`,
      );
    }
  }
}
