import type { Lens, LensAsk } from "../account.ts";
import { PRACTICE_KINDS } from "../practice/kinds.ts";
import { Problem } from "../take/index.ts";
import { lensMeasure, lensValue } from "./names.ts";

/**
 * A lens of a teacher's own as it is, if it can be worked with.
 *
 * @throws Problem when a bound is missing, doubled or out of reach, when "partly" lies beyond it, or when an exercise is
 * of no known kind
 */
export function checkLens(lens: Lens): Lens {
  for (const [i, ask] of lens.asks.entries()) checkAsk(ask, `asks.${i}`);
  const measures = lens.asks.map(({ measure }) => measure);
  const twice = measures.find((measure, i) => measures.indexOf(measure) < i);
  if (twice !== undefined) {
    throw new Problem(
      "lens-asks-twice",
      `"${lensMeasure(twice).name}" is asked for twice`,
      "asks",
      "Ask for each number once.",
    );
  }
  for (const [i, { kind }] of lens.exercises.entries()) {
    if ((PRACTICE_KINDS as readonly string[]).includes(kind)) continue;
    throw new Problem(
      "no-such-exercise",
      `There is no exercise of the kind "${kind}"`,
      `exercises.${i}.kind`,
      `Take one of: ${PRACTICE_KINDS.join(", ")}.`,
    );
  }
  return lens;
}

function checkAsk({ measure, least, most, partly }: LensAsk, where: string): void {
  const { name, farthest, unit } = lensMeasure(measure);
  const bound = least ?? most;
  if (bound === null || (least !== null && most !== null)) {
    throw new Problem(
      "lens-bound",
      `"${name}" needs one bound: at least, or at most`,
      where,
      "Give exactly one of the two.",
    );
  }
  for (const value of [bound, partly]) {
    if (value >= 0 && value <= farthest) continue;
    throw new Problem(
      "lens-bound",
      `"${name}" cannot be ${lensValue(value, unit)}`,
      where,
      `Give a number from 0 to ${lensValue(farthest, unit)}.`,
    );
  }
  if (least !== null ? partly > least : partly < bound) {
    throw new Problem(
      "lens-partly",
      `"${name}" would be partly reached only beyond its bound`,
      `${where}.partly`,
      `Let "partly" begin ${least !== null ? "at or below" : "at or above"} ${lensValue(bound, unit)}.`,
    );
  }
}
