export { correctTake } from "./correct-take.ts";
export { keyNames } from "./key-names.ts";
