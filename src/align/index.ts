export { align } from "./align.ts";
export { keyMargin } from "./key-margin.ts";
export { placeNotes } from "./place.ts";
export { anchorsOfTaps, mergeAnchors, type TapStep } from "./taps.ts";
export * from "./types.ts";
