export { binomialTail } from "./chance.ts";
export { commonPrefixes } from "./common-prefix.ts";
export { findMotifs, findSharedMotifs, type SharedMotif } from "./find-motifs.ts";
export { buildIndex, type MotifIndex, type SearchNote, type SearchTake } from "./motif-index.ts";
export { checkPattern, type MotifPattern, type PatternNote, patternOf } from "./pattern.ts";
export { type RepeatVisitor, visitRepeats } from "./repeats.ts";
export { matchPattern, type SearchHit, type SearchOptions, search } from "./search.ts";
export type { MotifNote } from "./solo-line.ts";
export { suffixArray } from "./suffix-array.ts";
