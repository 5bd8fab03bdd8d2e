/** Swing, timing, density and rests. */
import { z } from "zod";
import { type Frozen, noteId, share, shares } from "./shared.ts";

export const swingSchema = z.object({
  /** First part over second part. */
  median: z.number(),
  q1: z.number(),
  q3: z.number(),
  /** Number of beats measured. */
  beats: z.int(),
  /** Added: median tempo of those beats, in quarter notes a minute. */
  tempo: z.number().nullable(),
  /** Added: median length of the short part, in milliseconds. */
  short: z.number().nullable(),
});

export const rhythmSchema = z.object({
  swing: swingSchema.nullable(),
  swingByBeat: z.array(z.object({ beat: z.number(), swing: swingSchema })),
  /** In milliseconds; null when not measurable. `against`: what early and late are measured from. */
  timing: z
    .object({
      against: z.enum(["grid", "other hand"]),
      median: z.number(),
      q1: z.number(),
      q3: z.number(),
      notes: z.int(),
      /** Below it a difference cannot be heard; nothing under it is reported. */
      threshold: z.number(),
      heard: z.boolean(),
      /** Added: change of it over the take, in milliseconds a minute; null when too short to say or not heard. */
      drift: z.number().nullable(),
    })
    .nullable(),
  /** Standard deviation of bar tempos over their mean, and drift in percent a minute; null in rubato and notation. */
  tempoStability: z.object({ variation: z.number(), drift: z.number() }).nullable(),
  density: z.object({ perBar: z.number().nullable(), perSecond: z.number() }),
  /** Share of onsets by the subdivision that they fall on. */
  subdivisions: shares,
  /** Share of onsets on weak places that are held over the next stronger place. */
  syncopation: share.nullable(),
  /** Share of the time of the solo in which it rests. */
  rests: share,
  /** Share of steps between notes by size: "repeat", "step", "third", "fourth-fifth", "wide". */
  intervals: shares,
  /** Added: stepwise runs: share of the solo's notes in them, how many, and how many are followed by a leap. */
  runs: z.object({ share, count: z.int(), leapsAfter: z.int() }),
  /** Added: the longest rest inside the solo. */
  longestRest: z.object({ seconds: z.number(), beats: z.number().nullable(), after: noteId }).nullable(),
});

export type SwingSummary = Frozen<z.infer<typeof swingSchema>>;
export type RhythmSummary = Frozen<z.infer<typeof rhythmSchema>>;
