export { readTake } from "./read-take.ts";
