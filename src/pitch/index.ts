export * from "./interval.ts";
export * from "./line-of-fifths.ts";
export * from "./name.ts";
export * from "./pitch-class.ts";
export * from "./signature.ts";
export * from "./usual-names.ts";
