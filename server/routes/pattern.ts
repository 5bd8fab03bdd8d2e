/** A pattern as requests give it: symbols of a viewpoint, or notes that were played or picked. */
import type { z } from "zod";
import { checkPattern, type MotifPattern, patternOf } from "../../src/motif/index.ts";
import type { patternFields } from "../contract/pattern.ts";
import { HttpProblem } from "../errors.ts";

/** Throws a `Problem` when there is no pattern, or one that the viewpoint cannot read. */
export function patternFrom(fields: z.infer<typeof patternFields>): MotifPattern {
  if (fields.symbols !== undefined) {
    return checkPattern({ viewpoint: fields.viewpoint, symbols: fields.symbols });
  }
  if (fields.notes !== undefined) {
    return patternOf(
      fields.notes.map(({ pitch, position, degree, finger }) => ({
        pitch,
        position: position ?? null,
        degree: degree ?? null,
        finger: finger ?? null,
      })),
      fields.viewpoint,
    );
  }
  throw new HttpProblem(
    400,
    "pattern-missing",
    "There is no pattern in the request",
    "body.symbols",
    "Give symbols of the viewpoint, or notes.",
  );
}
