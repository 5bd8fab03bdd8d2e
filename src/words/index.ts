export * from "./intervals.ts";
export * from "./lists.ts";
export * from "./notes.ts";
export * from "./numbers.ts";
export * from "./places.ts";
