export * from "./annotated-score.ts";
export * from "./schema.ts";
export * from "./solo-midi.ts";
export * from "./table-text.ts";
export * from "./tables.ts";
export * from "./text.ts";
