/** `/tables`: what every column of the exported tables is, for programs that read them. */
import type { z } from "zod";
import { SCHEMA_VERSION } from "../../src/account.ts";
import { ANALYSIS_VERSION } from "../../src/analyse.ts";
import { type Column, TABLE_NAMES, type TableName } from "../../src/export/index.ts";
import { tablesSchema } from "../contract/tables.ts";
import { corpusColumns } from "../corpus/parquet.ts";
import { TAKE_TABLE } from "../corpus/take-table.ts";
import { columnMeaning, columnUnit } from "../reference/columns.ts";
import { type Route, route } from "../route.ts";

const ROWS: Readonly<Record<TableName, string>> = {
  notes: "a note, of the solo or not",
  phrases: "a phrase",
  motifs: "an occurrence of an idea",
  placements: "a placement of the hand",
  choruses: "a chorus",
};

export const tableRoutes: readonly Route[] = [
  route({
    method: "get",
    path: "/tables",
    access: "member",
    summary: "The tables of a corpus, with type, unit and meaning of each column",
    answers: { 200: { description: "the tables", schema: tablesSchema } },
    example: {},
    handle: async () => ({
      status: 200,
      json: {
        analysisVersion: ANALYSIS_VERSION,
        schemaVersion: SCHEMA_VERSION,
        tables: [
          { name: "takes", rows: "a take", columns: told("takes", TAKE_TABLE) },
          ...TABLE_NAMES.map((name) => ({
            name,
            rows: ROWS[name],
            columns: told(name, corpusColumns(name)),
          })),
        ],
      },
    }),
  }),
];

function told(
  table: string,
  columns: readonly Pick<Column<never>, "name" | "type">[],
): z.output<typeof tablesSchema>["tables"][number]["columns"] {
  return columns.map(({ name, type }) => {
    const meaning = columnMeaning(table, name) || columnMeaning("take", name);
    return { name, type, unit: columnUnit(type, meaning), meaning };
  });
}
