/** Fields that several routes take, and how they become what the analysis wants. */
import { z } from "zod";
import { type AnalyseOptionsInput, optionsSchema } from "../../src/account.ts";
import { chartText, formChart } from "../../src/chart/index.ts";
import { HttpProblem, notFound, problemOfZod } from "../errors.ts";
import type { UploadedFile } from "../route.ts";
import type { Queryable } from "../store/database.ts";
import { findRow } from "../store/library.ts";

/** How long a token or a link is in force. */
export const daysField = z
  .int()
  .min(1)
  .max(366)
  .nullable()
  .default(null)
  .describe("days until it ends by itself; null for none");

/** A day of the calendar, as PostgreSQL keeps it: there is no year 0. */
export const dateField = z.iso
  .date("a date is a day of the calendar, written 2026-03-01")
  .refine((text) => !text.startsWith("0000"), "years are counted from 0001");

export const idParams = z.object({ id: z.string().min(1).max(100) });

export const chartFields = z.object({
  chart: z.string().max(20_000).optional().describe("chart text"),
  form: z.string().max(60).optional().describe("a built-in form, see GET /forms"),
  key: z.string().max(20).optional().describe("key of the form"),
  chartId: z.string().max(100).optional().describe("a stored chart"),
});

export const formFields = chartFields.extend({
  options: z.string().max(200_000).optional().describe("options as JSON, as in the account's schema"),
});

/** Chart text from whichever way the caller named it; null when the take must bring its own chart. */
export async function chartTextOf(
  fields: z.infer<typeof chartFields>,
  database: Queryable,
): Promise<string | null> {
  // Forms send line ends as CRLF; the same chart should have the same key.
  if (fields.chart !== undefined && fields.chart.trim() !== "") return fields.chart.replaceAll("\r\n", "\n");
  if (fields.chartId !== undefined && fields.chartId !== "") {
    const chart = await findRow(database, "charts", fields.chartId);
    if (chart === null) throw notFound("chart", fields.chartId);
    return chart.text;
  }
  if (fields.form !== undefined && fields.form !== "") {
    if (fields.key === undefined || fields.key === "") {
      throw new HttpProblem(
        400,
        "key-missing",
        "A form needs a key",
        "key",
        'Say in which key, for example "F".',
      );
    }
    return chartText(formChart(fields.form, fields.key));
  }
  return null;
}

/** As `chartTextOf`, for routes that need a chart. Throws 400 when none is named. */
export async function requiredChartText(
  fields: z.infer<typeof chartFields>,
  database: Queryable,
): Promise<string> {
  const text = await chartTextOf(fields, database);
  if (text !== null) return text;
  throw new HttpProblem(
    400,
    "chart-missing",
    "There is no chart in the request",
    "chart",
    "Send chart text, or a form and a key.",
  );
}

export function optionsOf(text: string | undefined): AnalyseOptionsInput {
  if (text === undefined || text.trim() === "") return {};
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch (error) {
    throw new HttpProblem(
      400,
      "options-not-json",
      `The options are not JSON: ${(error as Error).message}`,
      "options",
      'Send an object, for example {"tempo":120}.',
    );
  }
  return checkOptions(value);
}

/** The options that were given, checked, without the defaults of those that were not. */
export function checkOptions(value: unknown): AnalyseOptionsInput {
  const result = optionsSchema.partial().safeParse(value);
  if (!result.success) throw problemOfZod(result.error, "options");
  const given = new Set(Object.keys(value as object));
  return Object.fromEntries(
    Object.entries(result.data).filter(([name]) => given.has(name)),
  ) as AnalyseOptionsInput;
}

export function oneFile(files: readonly UploadedFile[]): UploadedFile {
  const file = files[0];
  if (file === undefined) {
    throw new HttpProblem(
      400,
      "file-missing",
      "There is no file in the form",
      "file",
      "Send a MIDI or MusicXML file, or a recording of a piano, in the field named file.",
    );
  }
  return file;
}

/** A list as forms and queries send it, separated by commas. */
export function listOf(text: string | undefined): string[] {
  return (text ?? "")
    .split(",")
    .map((item) => item.trim())
    .filter((item) => item !== "");
}
