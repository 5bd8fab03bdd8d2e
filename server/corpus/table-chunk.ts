/** Rows of a table from a handful of stored accounts; runs in a worker thread. */
import { gunzipSync } from "node:zlib";
import type { Analysis } from "../../src/account.ts";
import { type Cell, csvRows, ndjsonRows, TABLES, type TableName } from "../../src/export/index.ts";
import { LEAD, type LeadRow } from "./lead.ts";

export interface ChunkTask {
  readonly table: TableName;
  readonly format: "csv" | "ndjson" | "columns";
  readonly takes: readonly { readonly lead: LeadRow; readonly account: Uint8Array }[];
}

/** UTF-8 text, or one array of cells for each column (the lead's first). */
export type Chunk = Uint8Array | Cell[][];

export default function run(task: ChunkTask): Chunk {
  const table = TABLES[task.table];
  const accounts = task.takes.map(
    ({ account }) => JSON.parse(gunzipSync(account).toString("utf8")) as Analysis,
  );
  if (task.format === "columns") {
    const columns: Cell[][] = [...LEAD, ...table.columns].map(() => []);
    for (const [k, analysis] of accounts.entries()) {
      const lead = LEAD.map((column) => column.value(task.takes[k]!.lead));
      for (const row of table.rows(analysis)) {
        for (const [i, cell] of lead.entries()) columns[i]!.push(cell);
        for (const [i, column] of table.columns.entries()) columns[LEAD.length + i]!.push(column.value(row));
      }
    }
    return columns;
  }
  const text = accounts.map((analysis, k) => {
    const lead = LEAD.map((column) => column.value(task.takes[k]!.lead));
    return task.format === "csv"
      ? csvRows(table, analysis, lead)
      : ndjsonRows(table, analysis, Object.fromEntries(LEAD.map((column, i) => [column.name, lead[i]!])));
  });
  return new TextEncoder().encode(text.join(""));
}
