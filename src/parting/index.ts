/** Which hand played which note. */
export { partHands } from "./part-hands.ts";
