export * from "./built-in.ts";
export * from "./check-lens.ts";
export * from "./names.ts";
export * from "./through-lens.ts";
