/** What is said of a take that begins inside its form, or long before it. */
import type { Chart } from "../chart/types.ts";
import type { Warning } from "../take/index.ts";
import { placeOf } from "./form.ts";
import type { Evidence } from "./lattice/evidence.ts";
import type { Reading } from "./lattice/lay-line.ts";

/** Says so when the take was heard to begin anywhere but at the form's first bar or shortly before. */
export function beginning(
  { beats, firstBeat }: Reading,
  { form, strokes }: Evidence,
  chart: Chart,
): Warning[] {
  let k = 0;
  while (k + 1 < beats.length && beats[k + 1]! <= strokes.time[0]!) k++;
  const first = firstBeat + k;
  const todo = "if that is wrong, pin a bar line or tap the beat";
  if (first < -2 * form.bar) {
    const message = `The form was heard to begin after an introduction of ${Math.ceil(-first / form.bar)} bars; ${todo}`;
    return [{ code: "long-intro", message, where: null }];
  }
  if (first < 2 * form.bar) return [];
  const place = placeOf(first * form.quarters, chart, 1);
  const message = `The take was heard to begin inside the form, in bar ${place.bar}; ${todo}`;
  return [{ code: "begins-inside-form", message, where: `bar ${place.bar}` }];
}
