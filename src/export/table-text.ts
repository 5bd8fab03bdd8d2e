/** Tables as CSV (RFC 4180) and as one JSON object a line. */
import type { Analysis } from "../account.ts";
import { BETWEEN, type Cell, itemsOfCell, NOTES, type Table } from "./tables.ts";

export function notesCsv(analysis: Analysis): string {
  return csvHeading(NOTES) + csvRows(NOTES, analysis);
}

export function notesNdjson(analysis: Analysis): string {
  return ndjsonRows(NOTES, analysis);
}

/** The heading row; `lead` names columns that stand before the table's own. */
export function csvHeading<Row>(table: Table<Row>, lead: readonly string[] = []): string {
  return `${[...lead, ...table.columns.map((column) => column.name)].map(csvCell).join(",")}\r\n`;
}

/** The rows of one account, each led by the same `lead` cells. */
function csvRows<Row>(table: Table<Row>, analysis: Analysis, lead: readonly Cell[] = []): string {
  const before = lead.map((cell) => `${csvCell(cell)},`).join("");
  let text = "";
  for (const row of table.rows(analysis)) {
    text += before;
    let comma = "";
    for (const column of table.columns) {
      text += comma + csvCell(column.value(row));
      comma = ",";
    }
    text += "\r\n";
  }
  return text;
}

function ndjsonRows<Row>(
  table: Table<Row>,
  analysis: Analysis,
  lead: Readonly<Record<string, Cell>> = {},
): string {
  let text = "";
  for (const row of table.rows(analysis)) {
    const object: Record<string, Cell | string[]> = { ...lead };
    for (const { name, type, value } of table.columns) {
      object[name] = type === "list" ? itemsOfCell(value(row)) : value(row);
    }
    text += `${JSON.stringify(object)}\n`;
  }
  return text;
}

/**
 * A cell of a CSV file. Text that a spreadsheet would run as a formula is led by an apostrophe; accidentals and
 * numbers are not text of that kind.
 *
 * The items of a list are joined by spaces.
 *
 * @example csvCell('say "yes"') // '"say ""yes"""'
 */
export function csvCell(value: Cell): string {
  if (value === null) return "";
  if (typeof value !== "string") return String(value);
  if (PLAIN.test(value)) return value;
  const shown = value.replaceAll(BETWEEN, " ");
  const safe = FORMULA.test(shown) ? `'${shown}` : shown;
  return QUOTED.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

const PLAIN = /^[\w #][\w #.'-]*$/;
const FORMULA = /^[=@\t\r]|^[+-](?!\d*\.?\d+$)/;
const QUOTED = /[",\r\n]/;
