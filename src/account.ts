/**
 * The account: all that the analysis says of a take. One schema feeds the types, the checks and the published
 * JSON Schema; its parts stand in `account/`. Fields are only ever added. Units: seconds, quarter-note beats (beats of the bar where said so),
 * semitones, MIDI numbers.
 */
import { z } from "zod";
import { chartFitSchema } from "./account/chart-fit.ts";
import { chorusSchema, registerSchema } from "./account/chorus.ts";
import { correctionOutcomeSchema } from "./account/correction.ts";
import { deviceSchema } from "./account/device.ts";
import { findingSchema, withheldSchema } from "./account/finding.ts";
import { handFitSchema, placementSchema } from "./account/hand-fit.ts";
import { lensOutcomeSchema } from "./account/lens.ts";
import { motifSchema } from "./account/motif.ts";
import { noteSchema } from "./account/note.ts";
import { optionsSchema } from "./account/options.ts";
import { phraseSchema, runSchema } from "./account/phrase.ts";
import { rhythmSchema } from "./account/rhythm.ts";
import { anchorSchema, barField, chorusField, type Frozen, share, warningSchema } from "./account/shared.ts";
import { ALIGNMENT_METHODS } from "./take/index.ts";

export * from "./account/chorus.ts";
export * from "./account/correction.ts";
export * from "./account/device.ts";
export * from "./account/finding.ts";
export * from "./account/hand-fit.ts";
export * from "./account/lens.ts";
export * from "./account/motif.ts";
export * from "./account/note.ts";
export * from "./account/options.ts";
export * from "./account/phrase.ts";
export * from "./account/rhythm.ts";
export { type Frozen, warningSchema } from "./account/shared.ts";

export { HARMONIC_ROLES, type HarmonicRole, LINE_ROLES } from "./harmony/roles.ts";

export const SCHEMA_VERSION = 1;

const sourceSchema = z
  .object({
    name: z.string().describe("name of the file"),
    format: z
      .enum(["midi", "musicxml", "sound"])
      .describe('what it was read from; "sound" for notes that were heard in a recording'),
    sha256: z
      .string()
      .regex(/^[0-9a-f]{64}$/)
      .describe("SHA-256 of its bytes, in hexadecimal digits"),
    notes: z.int().describe("number of notes in it, comping included"),
    seconds: z.number().describe("length in seconds, to the end of the last note"),
    title: z.string().nullable().describe("title that it carries; null for none"),
    parts: z
      .array(
        z.object({
          id: z.string().describe("id of the part, for the option `soloPart`"),
          name: z.string().describe("name of the part"),
          staves: z.int().describe("number of staves"),
          program: z.int().nullable().describe("MIDI program number, 0 to 127; null where none is set"),
          notes: z.int().describe("number of its notes"),
        }),
      )
      .describe("the parts, tracks or channels that it has"),
  })
  .meta({ id: "Source", description: "the file that was analysed" });

export const meterSchema = z
  .object({
    beats: z.int().describe("number of beats in a bar"),
    unit: z.int().describe("note value of the beat as a number: 4 quarter, 8 eighth"),
  })
  .meta({ id: "Meter", description: "time signature" });

const chartSchema = z
  .object({
    name: z.string().nullable().describe("name of the chart; null for none"),
    key: z.string().describe('key in which it begins: "F", "Gm"'),
    meter: meterSchema.describe("time signature"),
    idiom: z.enum(["blues", "standard"]).describe("whether dominants are at rest (blues) or lead on"),
    bars: z
      .array(
        z.object({
          number: z.int().describe("bar of the chart, number from 1"),
          key: z
            .string()
            .describe('key in which the bar stands: "F", "Gm"; the chart\'s own, or one it changes to'),
          chords: z
            .array(
              z.object({
                symbol: z.string().describe('chord symbol, or "N.C." for no chord'),
                beat: z
                  .number()
                  .describe("beat of the bar on which it starts, in the meter's own unit, 1 the first"),
                beats: z.number().describe("length in beats of the meter's own unit"),
                function: z.string().describe("what the chord does in the key, in a word"),
                numeral: z.string().describe('degree of the key, in roman figures: "IV"'),
                scale: z.string().describe("name of the scale that is played over it"),
              }),
            )
            .describe("its chords, in order"),
        }),
      )
      .describe("the bars of one chorus"),
    source: z
      .enum(["given", "source harmony", "source text", "proposed"])
      .describe("where it came from: given by the caller, read from the file, or proposed for the take"),
    text: z.string().describe("the chart as text, in the chart format"),
  })
  .meta({ id: "Chart", description: "the chords of one chorus" });

const alternativeSchema = z
  .object({
    tempo: z.number().describe("median tempo, in quarter notes a minute"),
    choruses: z.int().describe("number of choruses"),
    firstBar: z.int().describe("bar of the chart in which the take would begin, number from 1"),
    score: share.describe("its share among the readings that were weighed, 0 to 1"),
    why: z.string().describe('what it is beside the one that was chosen: "half as fast"'),
    pins: z
      .array(anchorSchema)
      .optional()
      .describe("pins that lay the take so; left out where its tempo does, told as an option"),
  })
  .meta({ id: "AlignmentAlternative", description: "another way to lay the take on its chart" });

const irregularSchema = z
  .object({
    chorus: z.int().describe("chorus in which the take leaves its form, number from 1"),
    bar: z.int().describe("bar of the chart in which it does, number from 1"),
    kind: z.enum(["missing", "extra"]).describe("whether something was left out there or put in"),
    beats: z
      .number()
      .positive()
      .describe("quarter-note beats that are missing or too many: a bar or half of one"),
    side: z
      .enum(["before", "after"])
      .describe("which part of the take lies beside the form because of it: up to that bar, or from it on"),
  })
  .meta({ id: "IrregularBars", description: "a place at which a take leaves its form" });

const alignmentSchema = z
  .object({
    method: z
      .enum(ALIGNMENT_METHODS)
      .describe(
        "how bars were found: as notated, by the file's click, by its beat, in free time, or by pins",
      ),
    confidence: share.describe("how likely a bar is where it is said to be, 0 to 1, over the whole take"),
    choruses: z.int().describe("number of choruses"),
    pickupBeats: z.number().describe("solo before the first bar line, in quarter-note beats"),
    tempo: z
      .object({
        median: z.number().describe("median, in quarter notes a minute"),
        slowest: z.number().describe("slowest, in quarter notes a minute"),
        fastest: z.number().describe("fastest, in quarter notes a minute"),
      })
      .nullable()
      .describe("tempo of the take; null in rubato"),
    bars: z
      .array(
        z.object({
          chorus: chorusField,
          bar: barField,
          start: z.number().describe("its first bar line, in seconds from the start of the file"),
          end: z.number().describe("its last bar line, in seconds from the start of the file"),
          confidence: share.describe("how likely it is where it is said to be, 0 to 1"),
        }),
      )
      .describe("where each bar falls in time"),
    map: z
      .array(
        z.object({
          seconds: z.number().describe("moment, in seconds from the start of the file"),
          position: z
            .number()
            .describe(
              "place on the chart, in quarter-note beats from the first bar line of the first chorus",
            ),
        }),
      )
      .describe(
        "knots of the map between seconds and the chart, straight between them; in rubato it joins chord changes only",
      ),
    anchors: z.array(anchorSchema).describe("the pins that it goes through"),
    warnings: z.array(warningSchema).describe("those of the account's warnings that the alignment gave"),
    alternatives: z
      .array(alternativeSchema)
      .optional()
      .describe("other readings of the take, the likeliest first; left out where none was weighed"),
    irregular: z
      .array(irregularSchema)
      .optional()
      .describe(
        "bars, half bars or, on a click that the file states, two bars or single beats that were left out or put in, in the order of the take; left out where none is heard. Without a click they are told where what hurries or drags is a bar too short or too long, and, with a hand that plays along, two bars in steady time",
      ),
    clicked: z
      .boolean()
      .optional()
      .describe(
        "true where the beat is the click that the file states, so that early and late can be told from it",
      ),
    chartFit: chartFitSchema
      .nullable()
      .describe("whether the notes fit the chart; null where too few sound over chords to say"),
  })
  .meta({ id: "Alignment", description: "where the chart falls in the time of the take" });

export const analysisSchema = z
  .object({
    schemaVersion: z
      .literal(SCHEMA_VERSION)
      .describe("version number of this schema; raised only when a field goes"),
    analysisVersion: z
      .string()
      .describe("version of the analysis: the same file, chart, options and version give the same account"),
    source: sourceSchema.describe("the file that was analysed"),
    chart: chartSchema.describe("the chart that it was analysed against"),
    options: optionsSchema.describe("everything that was decided, by the caller or by default"),
    alignment: alignmentSchema.describe("where the chart falls in the time of the take"),
    notes: z.array(noteSchema).describe("every note, in order of onset, then pitch"),
    placements: z.array(placementSchema).describe("where the hand stood, in order"),
    handFit: handFitSchema.describe("how well hand shapes explain the solo"),
    phrases: z.array(phraseSchema).describe("the phrases of the solo, in order"),
    runs: z.array(runSchema).describe("its stepwise runs, in order"),
    motifs: z.array(motifSchema).describe("ideas that return, the weightiest first"),
    devices: z.array(deviceSchema).describe("named figures of the line, in order"),
    choruses: z.array(chorusSchema).describe("what each chorus comes to, in order"),
    register: registerSchema.describe("which part of the keyboard the solo uses"),
    rhythm: rhythmSchema.describe("swing, timing, density and rests"),
    findings: z.array(findingSchema).describe("what a teacher would say, the weightiest first"),
    withheld: z.array(withheldSchema).describe("what applies and is not said, with the reason"),
    lens: lensOutcomeSchema
      .optional()
      .describe("what the take shows through the lens that was set; left out where none was"),
    corrections: z
      .array(correctionOutcomeSchema)
      .describe("what was put right of single notes, and what became of it in this analysis"),
    warnings: z.array(warningSchema).describe("what was repaired, left out or decided by default"),
  })
  .meta({ id: "Account", description: "all that the analysis says of a take" });

export type Analysis = Frozen<z.infer<typeof analysisSchema>>;
