/**
 * A manifest says what each file of a corpus is: JSON (`{ "takes": [...] }` or a bare list) or CSV with a heading
 * row. Columns: file, chart or form and key, player, title, date, tags (separated by spaces or semicolons in CSV).
 */
import { csvParse } from "d3-dsv";
import { z } from "zod";
import { Problem } from "../../src/take/index.ts";
import { dateField } from "../contract/fields.ts";

const text = z
  .union([z.string(), z.number()])
  .transform((value) => String(value).trim())
  .nullish()
  .transform((value) => value || null);

const entrySchema = z.object({
  file: z.string().trim().min(1).max(500),
  chart: text,
  form: text,
  key: text,
  player: text,
  title: text,
  date: text.refine(
    (value) => value === null || dateField.safeParse(value).success,
    "a date is a day of the calendar, written 2026-03-01",
  ),
  tags: z
    .union([z.array(z.string()), z.string().transform((value) => value.split(/[\s;,]+/))])
    .nullish()
    .transform((tags) => (tags ?? []).map((tag) => tag.trim()).filter((tag) => tag !== "")),
  options: z.record(z.string(), z.unknown()).nullish(),
});

export type ManifestEntry = z.infer<typeof entrySchema>;

/** Throws `Problem("bad-manifest")` naming the row and the field. */
export function readManifest(name: string, content: string): ManifestEntry[] {
  const rows =
    /\.json$/i.test(name) || /^\s*[[{]/.test(content) ? jsonRows(name, content) : csvRows(name, content);
  return rows.map((row, i) => {
    if (JSON.stringify(row ?? null).includes("\\u0000")) {
      throw badManifest(`Entry ${i + 1} of the manifest holds the character zero`, `${name}, entry ${i + 1}`);
    }
    const result = entrySchema.safeParse(row);
    if (result.success) return result.data;
    const issue = result.error.issues[0];
    throw badManifest(
      `Entry ${i + 1} of the manifest is not as expected: ${issue?.message ?? "unknown"}`,
      `${name}, entry ${i + 1}, ${issue?.path.join(".") || "entry"}`,
    );
  });
}

function jsonRows(name: string, content: string): unknown[] {
  let value: unknown;
  try {
    value = JSON.parse(content);
  } catch (error) {
    throw badManifest(`The manifest is not JSON: ${(error as Error).message}`, name);
  }
  const takes = Array.isArray(value) ? value : (value as { takes?: unknown } | null)?.takes;
  if (!Array.isArray(takes)) throw badManifest("The manifest holds no list of takes", name);
  return takes;
}

function csvRows(name: string, content: string): unknown[] {
  const rows = csvParse(content.replace(/^\uFEFF/, ""));
  if (!rows.columns.includes("file")) {
    throw badManifest(
      `The manifest has no column "file" (it has ${rows.columns.join(", ") || "none"})`,
      name,
    );
  }
  return [...rows];
}

function badManifest(message: string, where: string): Problem {
  return new Problem(
    "bad-manifest",
    message,
    where,
    'Give each take its file and its chart, for example {"file":"a.mid","form":"blues-basic","key":"F"}.',
  );
}
