export * from "./choose.ts";
export * from "./facts.ts";
export * from "./find-findings.ts";
export * from "./goals.ts";
export type { Redraw } from "./judge.ts";
export * from "./lesson.ts";
export * from "./rule.ts";
export { RULES } from "./rules/index.ts";
export * from "./teacher-edits.ts";
