/**
 * `npm run report -- places`: where notes stand in the beats that people annotated of the open solos. Half 0 taught the
 * prices of finer grids (printed last, as `src/align/grid.ts` has them), half 1 tests them.
 */
import { divisionsCounted, placeFigures } from "../align/count-places.ts";
import { OPEN_SOLOS_MISSING } from "../outside/open-solos.ts";

export function report(): void {
  if (OPEN_SOLOS_MISSING !== null) {
    console.log(`Skipped: ${OPEN_SOLOS_MISSING}`);
    return;
  }
  const percent = (share: number) => `${(100 * share).toFixed(1)} %`;
  for (const half of [0, 1] as const) {
    console.log(`half ${half}, by tempo`);
    for (const [name, one] of Object.entries(placeFigures(half))) {
      const rms = Math.sqrt(one.squares / one.notes).toFixed(3);
      console.log(
        `  ${name}: ${one.notes} notes; on one place ${percent(one.shared / one.notes)}; where annotated ${percent(one.right / one.notes)}, in five parts and more ${percent(one.fineRight / one.fine)}; displaced by ${rms} beats (root mean square)`,
      );
    }
  }
  console.log("half 0: parts of the beat, share of the beats, share of the parts that are struck");
  for (const { parts, beats, struck } of divisionsCounted(0, [2, 3, 4, 5, 6, 7, 8, 10, 12, 16, 24])) {
    console.log(`  [${parts}, ${beats.toPrecision(2)}, ${struck.toFixed(2)}]`);
  }
}
