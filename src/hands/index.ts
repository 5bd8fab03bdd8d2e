export { BUILT_IN_SHAPES } from "./built-in-shapes.ts";
export { checkShape } from "./check-shape.ts";
export { CAUTION, isWide, wideFingers } from "./comfort.ts";
export { explainHand, explainHands, type HandAccount, type HandNote } from "./explain.ts";
export { parseShapes, shapesJson } from "./parse-shapes.ts";
export { placementMap } from "./placement-map.ts";
export {
  type MappedChord,
  type MappedKey,
  type MappedPlacement,
  type PlacementMap,
  placementMapSchema,
} from "./placement-map-schema.ts";
export { degreeOn, fingerOn, fitsChord, heldShape, keysOf, type Placement } from "./placements.ts";
export type { AnchorDegree, HandShape } from "./shape.ts";
export { shapesNamed } from "./shape-list.ts";
