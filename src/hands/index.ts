export { BUILT_IN_SHAPES } from "./built-in-shapes.ts";
export { checkShape } from "./check-shape.ts";

export { explainHand, explainHands, type HandAccount, type HandNote } from "./explain.ts";
export { parseShapes, shapesJson } from "./parse-shapes.ts";
export { placementMap } from "./placement-map.ts";
export { placementMapSchema } from "./placement-map-schema.ts";
export { fitsChord } from "./placements.ts";
export type { HandShape } from "./shape.ts";
export { shapesNamed } from "./shape-list.ts";
