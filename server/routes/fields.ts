/** Fields that several routes take, and how they become what the analysis wants. */
import type { z } from "zod";
import { type AnalyseOptionsInput, optionsSchema } from "../../src/account.ts";
import { chartText, formChart } from "../../src/chart/index.ts";
import { soundKind } from "../../src/listen/index.ts";
import type { chartFields } from "../contract/fields.ts";
import { HttpProblem, notFound, problemOfZod } from "../errors.ts";
import type { UploadedFile } from "../route.ts";
import type { Queryable } from "../store/database.ts";
import { findRow } from "../store/library.ts";

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

/**
 * The one file of a form, where it must be a recording of sound.
 *
 * @param todo what to send instead of another
 * @throws HttpProblem `file-missing`, or `no-sound` for a file of another kind
 */
export function oneSound(files: readonly UploadedFile[], todo: string): UploadedFile {
  const file = oneFile(files);
  if (soundKind(file.bytes) !== null) return file;
  throw new HttpProblem(422, "no-sound", `${file.name} is no recording of sound`, "file", todo);
}

/** A list as forms and queries send it, separated by commas. */
export function listOf(text: string | undefined): string[] {
  return (text ?? "")
    .split(",")
    .map((item) => item.trim())
    .filter((item) => item !== "");
}
