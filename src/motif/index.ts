export { binomialTail, falseDiscoveryRates } from "./chance.ts";
export { commonPrefixes } from "./common-prefix.ts";
export { findMotifs, findSharedMotifs, type SharedMotif } from "./find-motifs.ts";
export { type RepeatVisitor, visitRepeats } from "./repeats.ts";
export type { MotifNote } from "./solo-line.ts";
export { suffixArray } from "./suffix-array.ts";
