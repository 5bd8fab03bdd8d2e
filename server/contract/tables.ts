/** What the tables hold that takes and corpora are exported as. */
import { z } from "zod";

const COLUMN_TYPES = ["text", "integer", "number", "boolean", "list", "date"] as const;

const columnSchema = z.object({
  name: z.string().describe("its name, as the heading has it"),
  type: z
    .enum(COLUMN_TYPES)
    .describe(
      "kind of its values; a list is one of texts, and a date a day, in NDJSON and Parquet: in CSV both are text",
    ),
  unit: z.string().nullable().describe("unit of its numbers; null for counts, names and what has none"),
  meaning: z.string().describe("what it is, with unit and range"),
});

export const tablesSchema = z
  .object({
    analysisVersion: z.string().describe("version of the analysis that new accounts are made with"),
    schemaVersion: z.int().describe("version number of the account's schema"),
    tables: z
      .array(
        z.object({
          name: z.string().describe("name of the table, the last word of its path: /corpora/{id}/notes"),
          rows: z.string().describe("what a row of it is"),
          columns: z
            .array(columnSchema)
            .describe("its columns in their order, as the tables of a corpus have them"),
        }),
      )
      .describe("the tables of a corpus"),
  })
  .meta({ id: "Tables", description: "the tables of a corpus, column by column" });
