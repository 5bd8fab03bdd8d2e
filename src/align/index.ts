export { align } from "./align.ts";
export { placeNotes } from "./place.ts";
export * from "./types.ts";
