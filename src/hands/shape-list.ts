import { Problem } from "../take/index.ts";
import { BUILT_IN_SHAPES } from "./built-in-shapes.ts";
import { checkShape } from "./check-shape.ts";
import type { HandShape } from "./shape.ts";

/**
 * The shapes with these names, in this order; all that are known for null, none for an empty list. A teacher's own shape with
 * the name of a built-in one takes its place.
 *
 * @throws Problem "unknown-shape" for a name that is not known, "bad-shape" for an own shape that no hand can hold
 */
export function shapesNamed(names: readonly string[] | null, own: readonly HandShape[] = []): HandShape[] {
  for (const shape of own) checkShape(shape);
  const known = new Map([...BUILT_IN_SHAPES, ...own].map((shape) => [shape.name, shape]));
  if (names === null) return [...known.values()];
  return [...new Set(names)].map((name) => {
    const shape = known.get(name);
    if (shape !== undefined) return shape;
    throw new Problem(
      "unknown-shape",
      `there is no hand shape "${name}"`,
      "shapes",
      `Choose from: ${[...known.keys()].join(", ")}.`,
    );
  });
}
