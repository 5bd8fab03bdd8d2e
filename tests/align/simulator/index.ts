export * from "./classes.ts";
export * from "./figures.ts";
export * from "./perform.ts";
export * from "./random.ts";
