export * from "./backing.ts";
export * from "./exercise.ts";
export * from "./exercise-midi.ts";
export * from "./exercise-score.ts";

export * from "./kinds.ts";
export * from "./practice-sheet.ts";
export * from "./prepared-lesson.ts";
export * from "./whole-lesson.ts";
