export * from "./alignment.ts";
export * from "./line.ts";
export * from "./note.ts";
export * from "./placed.ts";
export * from "./position.ts";
export * from "./problem.ts";
export * from "./sure.ts";
export * from "./take.ts";
