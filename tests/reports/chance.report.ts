/**
 * `npm run report -- chance [SOLOS]`: what is said of open solos where people placed them, beside the same solos with
 * their pitches shuffled and drawn: findings a take, and the share of takes on which each rule is said.
 */

import { solosOnCharts } from "../outside/chart-trials.ts";
import { findingsByTruth } from "../outside/open-accounts.ts";
import { OPEN_SOLOS_MISSING } from "../outside/open-solos.ts";

const COPIES = [null, "pitches shuffled", "pitches drawn", "moved in time"] as const;

export function report([most = "60"]: string[]): void {
  if (OPEN_SOLOS_MISSING !== null) {
    console.log(`skipped: ${OPEN_SOLOS_MISSING}`);
    return;
  }
  const solos = solosOnCharts()
    .filter(({ solo }) => solo.half === 1)
    .slice(0, Number(most));
  const said = new Map<string, number[]>();
  const means = COPIES.map((copy, column) => {
    let [works, practise, judged] = [0, 0, 0];
    for (const on of solos) {
      for (const { id, kind, chance } of findingsByTruth(on, copy).findings) {
        if (kind === "works") works++;
        if (kind === "practise") practise++;
        if (kind === "practise" && chance !== undefined) judged++;
        const row = said.get(id) ?? COPIES.map(() => 0);
        row[column]!++;
        said.set(id, row);
      }
    }
    return [works, practise, judged].map((n) => (n / solos.length).toFixed(2));
  });
  console.log(`${solos.length} solos; real, shuffled, drawn, moved in time`);
  console.log(`praises a take: ${means.map(([works]) => works).join(", ")}`);
  console.log(`tasks a take: ${means.map(([, practise]) => practise).join(", ")}`);
  console.log(`tasks that chance decides: ${means.map(([, , judged]) => judged).join(", ")}`);
  for (const [id, row] of [...said].sort((a, b) => b[1][0]! - a[1][0]!)) {
    console.log(`  ${id}: ${row.map((n) => `${Math.round((100 * n) / solos.length)} %`).join(", ")}`);
  }
}
