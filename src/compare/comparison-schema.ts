/** What comparisons give: pure data, to be drawn, printed or sent. The first side is the one that has "more". */
import { z } from "zod";
import { type Frozen, HARMONIC_ROLES, registerSchema } from "../account.ts";

export const MEASURE_UNITS = [
  "share",
  "notes a bar",
  "notes a second",
  "semitones",
  "MIDI number",
  "ratio",
  "ms",
  "notes",
  "shifts",
] as const;

/** What may be said of a difference, in plain words. */
export const VERDICTS = [
  "clearly more",
  "clearly less",
  "perhaps more",
  "perhaps less",
  "clearly different",
  "perhaps different",
  "no clear difference",
  "too little to say",
] as const;

const name = z.string().describe("its name in words");
const unit = z.enum(MEASURE_UNITS).describe("unit of its numbers");
const IN_ITS_UNIT = "in the unit of the measure (`unit`: semitones, share, ...)";
const shares = z.record(z.string(), z.number());
const pValue = z
  .number()
  .nullable()
  .describe("p of a permutation test over phrases, 0 to 1; null where too few");
const qValue = z
  .number()
  .nullable()
  .describe("false-discovery rate over all that is compared, 0 to 1; null where there are too few phrases");
const verdict = z.enum(VERDICTS).describe("what may be said of the difference");
const sentence = z.string().describe("the same in one sentence");

export const trendSchema = z
  .object({
    slope: z
      .number()
      .describe("median change from one to the next, in the unit of the measure (Theil 1950, Sen 1968)"),
    tau: z.number().describe("Kendall's tau of the values against their order, number from -1 to 1"),
    p: z.number().nullable().describe("exact two-sided p of that tau, 0 to 1; null beyond seven values"),
    words: z
      .enum(["rises", "falls", "rises at every step", "falls at every step", "no clear trend"])
      .describe("what may be said of it"),
  })
  .meta({ id: "Trend", description: "how a measure moves over a row of sides" });

export const changeSchema = z
  .object({
    verdict: verdict
      .nullable()
      .describe(
        "what may be said of the last against the first; null where there is no phrase to compare by",
      ),
    steps: z
      .array(verdict)
      .describe("the same of each against the one before it; empty where there is no phrase to compare by"),
    trend: trendSchema.nullable().describe("how the values follow the order; null for fewer than three"),
    delta: z
      .number()
      .nullable()
      .describe(
        "Cliff's delta over phrases of the last against the first, number from -1 to 1; null where unknown",
      ),
    p: pValue,
    q: qValue,
  })
  .meta({ id: "Change", description: "what may be said of a change over a row of takes" });

const sampleSchema = z
  .object({
    name: z.string().describe("what the side is called"),
    notes: z.int().describe("number of its solo notes"),
    phrases: z.int().describe("number of its phrases"),
    register: registerSchema.describe("which part of the keyboard it uses"),
  })
  .meta({ id: "Sample", description: "one side of a comparison" });

const layerNoteSchema = z.object({
  id: z.string().describe("id of the note in its take"),
  pitch: z.int().describe("MIDI number"),
  start: z.number().describe("where it begins, as a share of the bar, 0 at the bar line"),
  length: z.number().describe("how long it is held, as a share of the bar"),
  role: z.enum(HARMONIC_ROLES).nullable().describe("what it is against its chord; null where there is none"),
});

const barTogetherSchema = z
  .object({
    bar: z.int().describe("bar of the chart, number from 1"),
    chords: z.array(z.string()).describe("symbols of its chords"),
    layers: z
      .array(
        z.object({
          side: z.int().describe("the side, number from 0"),
          chorus: z.int().describe("the chorus, number from 1"),
          notes: z.array(layerNoteSchema).describe("its notes in this bar"),
        }),
      )
      .describe("what is played in it, one layer for each chorus of each side"),
  })
  .meta({ id: "BarTogether", description: "the same bar of every side" });

const sharedSchema = z
  .object({
    lines: z
      .array(
        z.object({
          intervals: z.array(z.number()).describe("its steps, in semitones"),
          starts: z.array(z.array(z.string())).describe("for each side the ids of the first notes"),
          places: z
            .array(
              z.array(
                z.object({
                  chorus: z.int().describe("its chorus, number from 1"),
                  bar: z.int().describe("bar of its first note, number from 1; 0 and below in the pickup"),
                  beat: z.number().nullable().describe("beat of its first note, from 1; null in rubato"),
                  notes: z.array(z.string()).describe("its notes by name"),
                }),
              ),
            )
            .describe("for each side where the line is played, in the order of `starts`"),
        }),
      )
      .describe("lines of five notes or more with the same intervals, the longest first"),
    motifs: z
      .array(
        z.object({
          viewpoint: z.string().describe("what it is that returns"),
          pattern: z
            .array(z.union([z.number(), z.string()]))
            .describe("symbols of the viewpoint; chromatic intervals are numbers of semitones"),
        }),
      )
      .describe("ideas found in every side"),
    placements: z.array(z.string()).describe("placements that make up a twentieth of each side at least"),
    degrees: z.array(z.string()).describe("degrees that make up a twentieth of each side at least"),
  })
  .meta({ id: "Shared", description: "what all sides have in common" });

const bars = z
  .array(barTogetherSchema)
  .describe("the same bar of all sides, laid over one another; empty when their charts differ in length");
const shared = sharedSchema.describe("what all sides have in common");

const measureComparisonSchema = z
  .object({
    id: z.string().describe("id of the measure"),
    name,
    unit,
    a: z.number().nullable().describe(`value of the first side, ${IN_ITS_UNIT}; null where it has none`),
    b: z.number().nullable().describe(`value of the second side, ${IN_ITS_UNIT}; null where it has none`),
    difference: z.number().nullable().describe(`first less second, ${IN_ITS_UNIT}; null where one has none`),
    interval: z
      .tuple([z.number(), z.number()])
      .nullable()
      .describe(
        `95 % interval of the difference by the bootstrap over phrases, ${IN_ITS_UNIT}; null where too few`,
      ),
    delta: z
      .number()
      .nullable()
      .describe("Cliff's delta over phrases, number from -1 to 1; null where single phrases have no value"),
    p: pValue,
    q: qValue,
    verdict,
    sentence,
  })
  .meta({ id: "MeasureComparison", description: "a measure of two sides" });

const distributionComparisonSchema = z
  .object({
    id: z.string().describe("id of the distribution"),
    name,
    a: shares.describe("share of the first side by label, each 0 to 1"),
    b: shares.describe("share of the second side by label, each 0 to 1"),
    divergence: z
      .number()
      .describe("Jensen-Shannon divergence, base 2, 0 to 1: 0 alike, 1 nothing in common"),
    p: pValue,
    q: qValue,
    verdict,
    differences: z
      .array(
        z.object({
          label: z.string().describe("the label"),
          difference: z
            .number()
            .describe("share of the first side less that of the second, number from -1 to 1"),
        }),
      )
      .describe("labels by how far apart their shares are, the farthest first"),
    sentence,
  })
  .meta({ id: "DistributionComparison", description: "a distribution of two sides" });

export const comparisonSchema = z
  .object({
    sides: z.tuple([sampleSchema, sampleSchema]).describe("the two sides"),
    measures: z.array(measureComparisonSchema).describe("each measure against the other"),
    distributions: z.array(distributionComparisonSchema).describe("each distribution against the other"),
    shared,
    bars,
    summary: z
      .array(z.string())
      .describe("what may be said of the two, in sentences; empty where nothing is clear"),
  })
  .meta({ id: "Comparison", description: "two sides next to each other" });

export const manyComparedSchema = z
  .object({
    sides: z.array(sampleSchema).describe("the sides, in the order that was asked for"),
    measures: z
      .array(
        z.object({
          id: z.string().describe("id of the measure"),
          name,
          unit,
          values: z
            .array(z.number().nullable())
            .describe(`one for each side, ${IN_ITS_UNIT}; null where it has none`),
          intervals: z
            .array(z.tuple([z.number(), z.number()]).nullable())
            .describe(
              `95 % interval of each by the bootstrap over phrases, ${IN_ITS_UNIT}; null where too few`,
            ),
          trend: trendSchema.nullable().describe("how it moves; null where too few have it"),
          change: changeSchema.describe("what may be said of the whole row"),
          words: z.string().describe("the same in a few words"),
          sentence,
        }),
      )
      .describe("each measure over the row"),
    distributions: z
      .array(
        z.object({
          id: z.string().describe("id of the distribution"),
          name,
          shares: z.array(shares).describe("share of each side by label, each 0 to 1"),
          steps: z
            .array(z.number().nullable())
            .describe(
              "Jensen-Shannon divergence of each side from the one before, 0 to 1; null for the first",
            ),
        }),
      )
      .describe("each distribution over the row"),
    shared,
    bars,
    ends: comparisonSchema.describe("the first side beside the last"),
  })
  .meta({ id: "ManyCompared", description: "three or more sides in a meaningful order" });

export type Verdict = (typeof VERDICTS)[number];
export type Trend = Frozen<z.output<typeof trendSchema>>;
export type Change = Frozen<z.output<typeof changeSchema>>;
export type SampleSummary = Frozen<z.output<typeof sampleSchema>>;
export type Shared = Frozen<z.output<typeof sharedSchema>>;
export type LayerNote = Frozen<z.output<typeof layerNoteSchema>>;
export type BarTogether = Frozen<z.output<typeof barTogetherSchema>>;
export type MeasureComparison = Frozen<z.output<typeof measureComparisonSchema>>;
export type DistributionComparison = Frozen<z.output<typeof distributionComparisonSchema>>;
export type Comparison = Frozen<z.output<typeof comparisonSchema>>;
/** Three or more sides: small multiples and their trend. */
export type ManyCompared = Frozen<z.output<typeof manyComparedSchema>>;
