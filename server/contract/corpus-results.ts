/** What came of a corpus: summed up, spread, in two groups against each other, its ideas, and what a paper cites. */
import { z } from "zod";
import { type Frozen, MOTIF_VIEWPOINTS } from "../../src/account.ts";
import { sharesField } from "./fields.ts";
import { filterFields } from "./filter.ts";

export const GROUPINGS = ["player", "tag", "chord", "tempo", "decade", "key", "chart", "method"] as const;

/** What is measured of a take; the account says how. */
export const MEASURES = ["tempo", "swing", "placementShare", "runShare", "rests", "perSecond"] as const;

const UNITS: Readonly<Record<(typeof MEASURES)[number], string>> = {
  tempo: "median tempo, in quarter notes a minute",
  swing: "swing, ratio of the first to the second part of a beat",
  placementShare: "share of the solo notes in a placement, 0 to 1",
  runShare: "share of the solo notes in stepwise runs, 0 to 1",
  rests: "share of the time in which the solo rests, 0 to 1",
  perSecond: "solo notes a second",
};

const IN_ITS_UNIT =
  "in the unit that it has in the summary: quarter notes a minute, ratio, share or notes a second";

const spread = z
  .object({
    q1: z.number().describe(`lower quartile over takes, ${IN_ITS_UNIT}`),
    median: z.number().describe(`median over takes, ${IN_ITS_UNIT}`),
    q3: z.number().describe(`upper quartile over takes, ${IN_ITS_UNIT}`),
    takes: z.int().describe("number of takes that have it"),
  })
  .nullable();

const roleShares = sharesField.describe("share of the solo notes by harmonic role, each 0 to 1");

export const summarySchema = z
  .object({
    takes: z.int().describe("number of takes"),
    players: z.int().describe("number of players"),
    notes: z.int().describe("number of solo notes"),
    seconds: z.number().describe("length of all takes together, in seconds"),
    roles: roleShares,
    lineRoles: sharesField.describe("share of the solo notes by line role, each 0 to 1"),
    chords: sharesField.describe('share of the solo notes by kind of chord ("N.C." for none), each 0 to 1'),
    measures: z
      .object({
        tempo: spread.describe(UNITS.tempo),
        swing: spread.describe(UNITS.swing),
        placementShare: spread.describe(UNITS.placementShare),
        runShare: spread.describe(UNITS.runShare),
        rests: spread.describe(UNITS.rests),
        perSecond: spread.describe(UNITS.perSecond),
      })
      .describe("quartiles over takes; null where no take has it"),
    by: z.enum(GROUPINGS).nullable().describe("what the takes are grouped by; null for nothing"),
    groups: z
      .array(
        z.object({
          value: z.string().describe("what the takes of the group have in common; empty for none"),
          takes: z.int().describe("number of its takes"),
          notes: z.int().describe("number of their solo notes"),
          roles: roleShares,
        }),
      )
      .describe("the groups"),
  })
  .meta({ id: "CorpusSummary", description: "what a corpus, or a part of it, holds" });

export const summaryQuery = filterFields.extend({
  by: z.enum(GROUPINGS).optional().describe("what the takes are grouped by"),
});

const perMeasure = z.record(z.enum(MEASURES), z.number().nullable());
const measure = z.enum(MEASURES).describe("the measure, as the summary has it");

export const measureSpreadsSchema = z
  .object({
    takes: z.int().describe("number of takes"),
    limit: z.number().describe("a robust z-score beyond this, above or below, stands apart"),
    apart: z.int().describe("number of takes that stand apart in a measure at least"),
    measures: z
      .array(
        z.object({
          measure,
          takes: z.int().describe("number of takes that have it"),
          median: z
            .number()
            .nullable()
            .describe(`median over takes, ${IN_ITS_UNIT}; null where too few have it`),
          deviation: z
            .number()
            .nullable()
            .describe(`median absolute deviation from the median, ${IN_ITS_UNIT}; null as above`),
          bins: z
            .array(
              z.object({
                from: z.number().describe(`lower edge, ${IN_ITS_UNIT}`),
                to: z.number().describe(`upper edge, ${IN_ITS_UNIT}`),
                takes: z.int().describe("number of takes in it; a value on an edge counts in the upper bin"),
              }),
            )
            .describe("equal steps from the least to the greatest value"),
        }),
      )
      .describe("how each measure is spread"),
    rows: z
      .array(
        z.object({
          take: z.string().describe("id of the take"),
          title: z.string().describe("its title"),
          player: z.string().nullable().describe("name of its player; null for none"),
          values: perMeasure.describe(`its value by measure, ${IN_ITS_UNIT}; null where it has none`),
          scores: perMeasure.describe("its robust z-score by measure; null where there is none"),
          furthest: z.number().describe("the greatest z-score without its sign"),
        }),
      )
      .describe("the takes that are furthest from the middle, the furthest first"),
  })
  .meta({
    id: "MeasureSpreads",
    description: "how each measure is spread over takes, and which stand apart",
  });

export const spreadsQuery = filterFields.extend({
  limit: z.coerce.number().int().min(1).max(5000).default(400).describe("greatest number of rows, 1 to 5000"),
});

const pValue = z
  .number()
  .nullable()
  .describe("p of a permutation test over takes, 0 to 1; null where there are too few");
const qValue = z
  .number()
  .nullable()
  .describe("false-discovery rate over all that is compared, 0 to 1; null where there are too few takes");
const verdict = z.string().describe("what may be said of the difference, in words");

const groupMeasureSchema = z.object({
  id: z.string().describe("id of the measure, as the summary has it"),
  name: z.string().describe("its name in words"),
  a: z.number().nullable().describe(`median of the first group, ${IN_ITS_UNIT}; null where no take has it`),
  b: z.number().nullable().describe(`median of the second group, ${IN_ITS_UNIT}; null where no take has it`),
  difference: z.number().nullable().describe(`first less second, ${IN_ITS_UNIT}; null where one has none`),
  interval: z
    .tuple([z.number(), z.number()])
    .readonly()
    .nullable()
    .describe(
      `95 % interval of the difference by the bootstrap, ${IN_ITS_UNIT}; null where there are too few`,
    ),
  delta: z
    .number()
    .nullable()
    .describe(
      "Cliff's delta, number from -1 to 1: how often a take of the first lies above one of the second",
    ),
  p: pValue,
  q: qValue,
  verdict,
});

const groupDistributionSchema = z.object({
  id: z.string().describe("what is distributed: roles or lineRoles"),
  a: sharesField.describe("share of the first group's notes by label, each 0 to 1"),
  b: sharesField.describe("share of the second group's notes by label, each 0 to 1"),
  divergence: z.number().describe("Jensen-Shannon divergence, base 2, 0 to 1: 0 alike, 1 nothing in common"),
  p: pValue,
  q: qValue,
  verdict,
});

export const groupsSchema = z
  .object({
    takes: z
      .object({
        a: z.int().describe("number of takes of the first group"),
        b: z.int().describe("number of takes of the second group"),
      })
      .describe("how many takes are compared"),
    measures: z.array(groupMeasureSchema).describe("each measure against the other"),
    distributions: z.array(groupDistributionSchema).describe("each distribution against the other"),
  })
  .meta({
    id: "GroupComparison",
    description: "two parts of a corpus; takes are the units of the statistics",
  });

export const groupsBody = z.object({
  a: filterFields.describe("the first group"),
  b: filterFields.describe("the second group"),
  seed: z.int().default(1).describe("seed of the permutation and bootstrap statistics, any whole number"),
});

export const vocabularySchema = z
  .object({
    takes: z.int().describe("number of takes that were looked at"),
    ideas: z
      .array(
        z.object({
          viewpoint: z.enum(MOTIF_VIEWPOINTS).describe("what it is that returns"),
          pattern: z
            .array(z.union([z.number(), z.string()]))
            .describe("symbols of the viewpoint; chromatic intervals are numbers of semitones"),
          notes: z.int().describe("number of its notes"),
          takes: z.int().describe("number of takes in which it is a motif"),
          players: z.int().describe("number of players in whose takes it is one"),
          occurrences: z.int().describe("number of times that it is played in all"),
        }),
      )
      .describe("ideas by the number of takes, the most widely shared first"),
  })
  .meta({ id: "Vocabulary", description: "which ideas the takes of a corpus share" });

export const vocabularyQuery = filterFields.extend({
  viewpoint: z.enum(MOTIF_VIEWPOINTS).optional().describe("ideas of this viewpoint alone"),
  limit: z.coerce.number().int().min(1).max(1000).default(50).describe("greatest number of ideas, 1 to 1000"),
});

export const citationSchema = z
  .object({
    text: z.string().describe("a sentence for the paper"),
    analysisVersion: z.string().describe("versions of the analysis that the accounts were made with"),
    schemaVersion: z.int().describe("version number of the account's schema"),
    takes: z.int().describe("number of takes"),
    notes: z.int().describe("number of solo notes"),
    sourcesHash: z.string().describe("SHA-256 over the sorted hashes of the sources, one a line"),
    analysesHash: z
      .string()
      .describe("SHA-256 over the sorted keys of the analyses: source, chart, options and version together"),
    filter: filterFields.describe("the filter that was asked with"),
    options: z
      .array(
        z.object({
          options: z.record(z.string(), z.unknown()).describe("a set of options, without the names of files"),
          takes: z.int().describe("number of takes analysed under it"),
        }),
      )
      .describe("the different sets of options"),
  })
  .meta({ id: "Citation", description: "what a paper needs so that others can repeat it" });

export type Grouping = (typeof GROUPINGS)[number];
export type CorpusMeasureName = (typeof MEASURES)[number];
export type CorpusSummary = Frozen<z.output<typeof summarySchema>>;
export type Spread = Frozen<z.output<typeof spread>>;
export type MeasureSpreads = Frozen<z.output<typeof measureSpreadsSchema>>;
export type GroupComparison = Frozen<z.output<typeof groupsSchema>>;
export type Vocabulary = Frozen<z.output<typeof vocabularySchema>>;
export type SharedIdea = Vocabulary["ideas"][number];
export type Citation = Frozen<z.output<typeof citationSchema>>;
