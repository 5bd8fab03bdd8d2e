export * from "./chart-fit.ts";
export * from "./chart-question.ts";
export { COMPING_WEIGHTS, type CompingFeatures, compingFeatures } from "./comping-fit.ts";
export * from "./labels.ts";
export {
  byLine,
  LINE_FITS,
  LINE_WEIGHTS,
  type LineFeatures,
  lineFeatures,
  tellingSureness,
} from "./line-fit.ts";
export { type Relabelled, relabeller } from "./relabel.ts";
export * from "./roles.ts";
export * from "./sentence.ts";
export * from "./tag.ts";
export { spellTake } from "./take-spelling.ts";
