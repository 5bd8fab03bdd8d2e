/**
 * The account: all that the analysis says of a take. One schema feeds the types, the checks and the published
 * JSON Schema; its parts stand in `account/`. Fields are only ever added. Units: seconds, quarter-note beats (beats of the bar where said so),
 * semitones, MIDI numbers.
 */
import { z } from "zod";
import { chartFitSchema } from "./account/chart-fit.ts";
import { chorusSchema, registerSchema } from "./account/chorus.ts";
import { deviceSchema } from "./account/device.ts";
import { findingSchema, withheldSchema } from "./account/finding.ts";
import { handFitSchema, placementSchema } from "./account/hand-fit.ts";
import { motifSchema } from "./account/motif.ts";
import { noteSchema } from "./account/note.ts";
import { optionsSchema } from "./account/options.ts";
import { phraseSchema, runSchema } from "./account/phrase.ts";
import { rhythmSchema } from "./account/rhythm.ts";
import { anchorSchema, type Frozen, share, warningSchema } from "./account/shared.ts";
import { ALIGNMENT_METHODS } from "./take/index.ts";

export * from "./account/chorus.ts";
export * from "./account/device.ts";
export * from "./account/finding.ts";
export * from "./account/hand-fit.ts";
export * from "./account/motif.ts";
export * from "./account/note.ts";
export * from "./account/options.ts";
export * from "./account/phrase.ts";
export * from "./account/rhythm.ts";

export { HARMONIC_ROLES, type HarmonicRole, LINE_ROLES } from "./harmony/roles.ts";

export const SCHEMA_VERSION = 1;

export const analysisSchema = z.object({
  schemaVersion: z.literal(SCHEMA_VERSION),
  analysisVersion: z.string(),
  source: z.object({
    name: z.string(),
    /** Added: "sound", for notes that were heard in a recording. */
    format: z.enum(["midi", "musicxml", "sound"]),
    sha256: z.string().regex(/^[0-9a-f]{64}$/),
    notes: z.int(),
    seconds: z.number(),
    title: z.string().nullable(),
    parts: z.array(
      z.object({
        id: z.string(),
        name: z.string(),
        staves: z.int(),
        program: z.int().nullable(),
        notes: z.int(),
      }),
    ),
  }),
  chart: z.object({
    name: z.string().nullable(),
    key: z.string(),
    meter: z.object({ beats: z.int(), unit: z.int() }),
    idiom: z.enum(["blues", "standard"]),
    bars: z.array(
      z.object({
        number: z.int(),
        chords: z.array(
          z.object({
            symbol: z.string(),
            beat: z.number(),
            beats: z.number(),
            function: z.string(),
            numeral: z.string(),
            scale: z.string(),
          }),
        ),
      }),
    ),
    /** Where the chart came from: given by the caller, or read from or proposed for the take. */
    source: z.enum(["given", "source harmony", "source text", "proposed"]),
    /** The chart as text, in the chart format. */
    text: z.string(),
  }),
  options: optionsSchema,
  alignment: z.object({
    method: z.enum(ALIGNMENT_METHODS),
    confidence: share,
    choruses: z.int(),
    pickupBeats: z.number(),
    tempo: z.object({ median: z.number(), slowest: z.number(), fastest: z.number() }).nullable(),
    bars: z.array(
      z.object({ chorus: z.int(), bar: z.int(), start: z.number(), end: z.number(), confidence: share }),
    ),
    anchors: z.array(anchorSchema),
    /** Other readings of the take, the likeliest first. */
    alternatives: z
      .array(
        z.object({
          /** Quarter notes a minute. */
          tempo: z.number(),
          choruses: z.int(),
          firstBar: z.int(),
          score: share,
          why: z.string(),
        }),
      )
      .optional(),
    /** Whether the notes fit the chart; null where too few sound over chords to say. */
    chartFit: chartFitSchema.nullable(),
  }),
  notes: z.array(noteSchema),
  placements: z.array(placementSchema),
  handFit: handFitSchema,
  phrases: z.array(phraseSchema),
  runs: z.array(runSchema),
  motifs: z.array(motifSchema),
  /** Added: named figures of the line, in order. */
  devices: z.array(deviceSchema),
  choruses: z.array(chorusSchema),
  register: registerSchema,
  rhythm: rhythmSchema,
  findings: z.array(findingSchema),
  /** What applies and is not said, with the reason. */
  withheld: z.array(withheldSchema),
  warnings: z.array(warningSchema),
});

export type Analysis = Frozen<z.infer<typeof analysisSchema>>;
