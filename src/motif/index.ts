export { findMotifs, type MotifNote } from "./find-motifs.ts";
