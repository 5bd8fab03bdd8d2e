/**
 * The package as others import it: the analysis with what goes into it and what is made of it. Pure functions, without
 * input or output, for Node and browsers.
 *
 * @example
 * import { analyse, notesCsv } from "ledgerline";
 * const account = analyse(await readFile("solo.mid"), "key: F\n| F7 | Bb7 | F7 | F7 |");
 * console.log(account.notes[0]?.account, notesCsv(account));
 */
export * from "./account.ts";
export { ANALYSIS_VERSION, analyse } from "./analyse.ts";
export { type Chart, chartText, FORMS, type Form, formChart, parseChart } from "./chart/index.ts";
export {
  accountJsonSchema,
  accountText,
  annotatedScore,
  type Column,
  notesCsv,
  notesNdjson,
  soloMidi,
  TABLE_NAMES,
  TABLES,
  type Table,
  type TableName,
} from "./export/index.ts";
export { BUILT_IN_SHAPES, checkShape, type HandShape } from "./hands/index.ts";
export { type Proposal, type ProposedChart, proposeFor } from "./propose.ts";
export { describeProblem, Problem, type Warning } from "./take/index.ts";
