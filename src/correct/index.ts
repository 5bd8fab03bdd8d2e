export { correctTake } from "./correct-take.ts";
