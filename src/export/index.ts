export * from "./annotated-score.ts";
export * from "./note-table.ts";
export * from "./schema.ts";
export * from "./solo-midi.ts";
export * from "./text.ts";
