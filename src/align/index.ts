export { align } from "./align.ts";
export { placeNotes } from "./place.ts";
export { anchorsOfTaps, mergeAnchors, TAP_STEPS, type TappedBeat, type TapStep } from "./taps.ts";
export * from "./types.ts";
