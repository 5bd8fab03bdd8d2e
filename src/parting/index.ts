/** Which hand played which note. */
export { type PartedHands, partHands } from "./part-hands.ts";
