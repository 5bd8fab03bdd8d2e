/** What the columns of tables mean: as the field of the account that they are taken from, where there is one. */
import { z } from "zod";
import { chorusSchema, motifSchema, noteSchema, phraseSchema, placementSchema } from "../../src/account.ts";
import { takeSchema } from "../contract/takes.ts";

type Shape = Readonly<Record<string, z.ZodType>>;

const occurrence = motifSchema.shape.occurrences.element.shape;

const FIELDS: Readonly<Record<string, Shape>> = {
  take: takeSchema.shape,
  takes: takeSchema.shape,
  notes: noteSchema.shape,
  phrases: phraseSchema.shape,
  motifs: { ...motifSchema.shape, ...occurrence },
  placements: placementSchema.shape,
  choruses: chorusSchema.shape,
};

/** Columns that are no field of their row. */
const OWN: Readonly<Record<string, string>> = {
  "take.take": "id of the take",
  "take.chartKey": 'key of its chart: "F", "Gm"',
  "takes.take": "id of the take",
  "takes.sha256": "hash of the file that it was analysed from, SHA-256 in hexadecimal",
  "takes.chart": "chart text as it was given; null where the take brought its own",
  "takes.meter": 'meter of the chart: "4/4"',
  "takes.warnings": "codes of its warnings, each once, as the reference lists them",
  "takes.analysisKey": "hash of file, chart, options and version: the same key is the same account",
  "takes.analysisVersion": "version of the analysis that made its account",
  "notes.printedFingers":
    'all that is printed as fingering: "2-3" for a change on the held key, "2 (3)" for an alternate; empty for none',
  "motifs.motif": "id of the idea",
  "choruses.low": "lowest note, MIDI number; empty without notes",
  "choruses.high": "highest note, MIDI number; empty without notes",
  "choruses.notesPerBar": "solo notes a bar",
  "choruses.notesPerSecond": "solo notes a second",
  "choruses.swing": "median ratio of the first to the second part of a beat; empty where too few beats tell",
};

/** Units by the words in which a meaning tells them; the first that fits counts. */
const UNITS: readonly (readonly [RegExp, string])[] = [
  [/quarter notes a minute/, "quarter notes a minute"],
  [/notes a second/, "notes a second"],
  [/notes a bar/, "notes a bar"],
  [/MIDI number/, "MIDI number"],
  [/MIDI velocity/, "MIDI velocity"],
  [/beats? of the bar/, "beat of the bar, counted from 1"],
  [/quarter-note beats|quarter notes/, "quarter notes"],
  [/\bbars\b/, "bars"],
  [/semitones?/, "semitones"],
  [/\bseconds\b/, "seconds"],
  [/0 to 1\b/, "share of 1"],
  [/ratio/, "ratio"],
];

/** Unit of a column's numbers; null for counts and names. */
export function columnUnit(type: string, meaning: string): string | null {
  if (type !== "number" && type !== "integer") return null;
  return UNITS.find(([words]) => words.test(meaning))?.[1] ?? null;
}

/** Empty where nobody has said it: a test asks for every column. */
export function columnMeaning(table: string, name: string): string {
  const own = OWN[`${table}.${name}`];
  if (own !== undefined) return own;
  const [kind, ...role] = name.split(" ");
  if (kind === "role") return `share of the solo notes that are ${role.join(" ")} of their chord, 0 to 1`;
  if (kind === "line") return `share of the solo notes whose line role is ${role.join(" ")}, 0 to 1`;
  return FIELDS[table]?.[name]?.description ?? "";
}

const CELLS: Readonly<Record<string, () => z.ZodType>> = {
  text: () => z.string(),
  integer: () => z.int(),
  number: () => z.number(),
  boolean: () => z.boolean(),
  list: () => z.array(z.string()),
  date: () => z.iso.date(),
};

/** A row of a table as a line of NDJSON has it, published under the name `id`. */
export function rowSchema(
  id: string,
  table: string,
  columns: readonly { readonly name: string; readonly type: string }[],
): z.ZodType {
  const cells = columns.map(({ name, type }) => {
    const meaning = columnMeaning(table, name) || columnMeaning("take", name);
    return [name, CELLS[type]!().nullable().describe(meaning)];
  });
  return z
    .object(Object.fromEntries(cells))
    .meta({ id, description: `a row of the table ${table}, as a line of NDJSON` });
}
