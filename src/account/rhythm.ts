/** Swing, timing, density and rests. */
import { z } from "zod";
import { type Frozen, noteId, share, shares } from "./shared.ts";

const intervalOf = (what: string, unit: string) =>
  z
    .object({
      low: z.number().describe(`lowest, ${unit}`),
      high: z.number().describe(`highest, ${unit}`),
    })
    .optional()
    .describe(`interval that holds ${what} 95 times in 100, however the values are spread`);

export const swingSchema = z
  .object({
    median: z.number().describe("first part of the beat over the second, ratio: 1 even, 2 triplets"),
    interval: intervalOf("the median ratio", "ratio"),
    q1: z.number().describe("lower quartile of that ratio"),
    q3: z.number().describe("upper quartile of that ratio"),
    beats: z.int().describe("number of beats that were measured"),
    tempo: z
      .number()
      .nullable()
      .describe("median tempo of those beats, in quarter notes a minute; null when not measurable"),
    short: z
      .number()
      .nullable()
      .describe("median length of the short part, in milliseconds; null when not measurable"),
  })
  .meta({ id: "Swing", description: "how beats are divided into two" });

const timingSchema = z
  .object({
    against: z.enum(["grid", "other hand"]).describe("what early and late are measured from"),
    median: z.number().describe("median, in milliseconds: early below 0, late above"),
    interval: intervalOf("the median", "in milliseconds"),
    q1: z.number().describe("lower quartile, in milliseconds"),
    q3: z.number().describe("upper quartile, in milliseconds"),
    notes: z.int().describe("number of notes that were measured"),
    threshold: z.number().describe("milliseconds below which a difference cannot be heard and is not told"),
    heard: z.boolean().describe("true where the median is beyond that threshold"),
    drift: z
      .number()
      .nullable()
      .describe("change over the take, in milliseconds a minute; null when too short to say or not heard"),
  })
  .meta({ id: "Timing", description: "how early or late the line is" });

/** Why it cannot be said whether the line is early or late. */
const UNTIMED = ["no performance", "no beat", "no click", "two readings", "too few notes"] as const;

export const rhythmSchema = z
  .object({
    swing: swingSchema.nullable().describe("of the whole take; null where too few beats tell"),
    swingByBeat: z
      .array(
        z.object({
          beat: z.number().describe("beat of the bar in the meter's own unit, 1 the first"),
          swing: swingSchema.describe("of that beat alone"),
        }),
      )
      .describe("swing by the beat of the bar that is divided"),
    timing: timingSchema.nullable().describe("how early or late the line is; null when not measurable"),
    untimed: z
      .enum(UNTIMED)
      .optional()
      .describe(
        'why early and late cannot be said: "no performance" in notation, "no beat" in rubato, "no click" where the beat is known from the line alone, "two readings" where the line could as well be early as late, "too few notes"; left out where they are said',
      ),
    tempoStability: z
      .object({
        variation: z.number().describe("standard deviation of the tempos of bars over their mean, share"),
        drift: z.number().describe("change of tempo, in percent a minute; slower below 0"),
      })
      .nullable()
      .describe("how steady the tempo is; null in rubato and notation"),
    density: z
      .object({
        perBar: z.number().nullable().describe("solo notes a bar; null in rubato"),
        perSecond: z.number().describe("solo notes a second"),
      })
      .describe("how dense the line is"),
    subdivisions: shares.describe(
      "share of onsets by the division that they fall on, each 0 to 1, together 1",
    ),
    syncopation: share
      .nullable()
      .describe(
        "share of onsets on weak places that are held over the next stronger place, 0 to 1; null when not measurable",
      ),
    rests: share.describe("share of the time of the solo in which it rests, 0 to 1"),
    intervals: shares.describe(
      'share of steps between notes by size: "repeat", "step", "third", "fourth-fifth", "wide"; each 0 to 1, together 1',
    ),
    runs: z
      .object({
        share: share.describe("share of the solo notes in stepwise runs, 0 to 1"),
        count: z.int().describe("number of runs"),
        leapsAfter: z.int().describe("number of runs that a leap follows"),
      })
      .describe("stepwise runs taken together"),
    longestRest: z
      .object({
        seconds: z.number().describe("length in seconds"),
        beats: z.number().nullable().describe("length in quarter-note beats; null in rubato"),
        after: noteId.describe("id of the note after which it begins"),
      })
      .nullable()
      .describe("the longest rest inside the solo; null where there is none"),
  })
  .meta({ id: "Rhythm", description: "swing, timing, density and rests of the take" });

export type SwingSummary = Frozen<z.infer<typeof swingSchema>>;
export type RhythmSummary = Frozen<z.infer<typeof rhythmSchema>>;
