/** Notes as tables: one row a note, the same columns in every format. */
import type { AccountNote, Analysis } from "../account.ts";

export type Cell = string | number | boolean | null;

export interface Column {
  readonly name: string;
  readonly type: "text" | "integer" | "number" | "boolean";
  readonly value: (note: AccountNote) => Cell;
}

/** Columns of the note table, in order. Lists are joined by spaces. */
export const NOTE_COLUMNS: readonly Column[] = [
  { name: "id", type: "text", value: (note) => note.id },
  { name: "pitch", type: "integer", value: (note) => note.pitch },
  { name: "spelling", type: "text", value: (note) => note.spelling },
  { name: "onset", type: "number", value: (note) => note.onset },
  { name: "duration", type: "number", value: (note) => note.duration },
  { name: "beats", type: "number", value: (note) => note.beats },
  { name: "velocity", type: "integer", value: (note) => note.velocity },
  { name: "hand", type: "text", value: (note) => note.hand },
  { name: "solo", type: "boolean", value: (note) => note.solo },
  { name: "chorus", type: "integer", value: (note) => note.chorus },
  { name: "bar", type: "integer", value: (note) => note.bar },
  { name: "beat", type: "number", value: (note) => note.beat },
  { name: "position", type: "number", value: (note) => note.position },
  { name: "chord", type: "text", value: (note) => note.chord },
  { name: "degree", type: "text", value: (note) => note.degree },
  { name: "role", type: "text", value: (note) => note.role },
  { name: "guideTone", type: "boolean", value: (note) => note.guideTone },
  { name: "blueInKey", type: "boolean", value: (note) => note.blueInKey },
  { name: "lineRole", type: "text", value: (note) => note.lineRole },
  { name: "target", type: "text", value: (note) => note.target },
  { name: "strength", type: "number", value: (note) => note.strength },
  { name: "placement", type: "text", value: (note) => note.placement },
  { name: "finger", type: "integer", value: (note) => note.finger },
  { name: "fingerSource", type: "text", value: (note) => note.fingerSource },
  { name: "slide", type: "text", value: (note) => note.slide },
  { name: "phrase", type: "text", value: (note) => note.phrase },
  { name: "motifs", type: "text", value: (note) => note.motifs.join(" ") },
  { name: "timing", type: "number", value: (note) => note.timing },
  { name: "account", type: "text", value: (note) => note.account },
];

/** RFC 4180: a heading row, commas, CRLF. */
export function notesCsv(analysis: Analysis): string {
  const rows = analysis.notes.map((note) => NOTE_COLUMNS.map((column) => csvCell(column.value(note))));
  return [NOTE_COLUMNS.map((column) => column.name), ...rows].map((row) => `${row.join(",")}\r\n`).join("");
}

/** One JSON object a line, with the columns of the table. */
export function notesNdjson(analysis: Analysis): string {
  return analysis.notes
    .map(
      (note) => `${JSON.stringify(Object.fromEntries(NOTE_COLUMNS.map((c) => [c.name, c.value(note)])))}\n`,
    )
    .join("");
}

/**
 * A cell of a CSV file. Text that a spreadsheet would run as a formula is led by an apostrophe.
 *
 * @example csvCell('say "yes"') // '"say ""yes"""'
 */
export function csvCell(value: Cell): string {
  if (value === null) return "";
  if (typeof value !== "string") return String(value);
  const safe = /^[=@\t\r]|^[+-](?![\d.])/.test(value) ? `'${value}` : value;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}
