export { BUILT_IN_SHAPES } from "./built-in-shapes.ts";
export { checkShape } from "./check-shape.ts";
export { explainHand, explainHands, type HandAccount, type HandNote } from "./explain.ts";
export { degreeOn, fingerOn, fitsChord, heldShape, keysOf, type Placement } from "./placements.ts";
export type { AnchorDegree, HandShape } from "./shape.ts";
export { shapesNamed } from "./shape-list.ts";
