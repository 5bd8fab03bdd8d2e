/** What the caller may decide of an analysis. */
import { z } from "zod";
import { DEGREES, QUALITIES } from "../chart/types.ts";
import { correctionsSchema } from "./correction.ts";
import { lensSchema } from "./lens.ts";
import { anchorSchema, type Frozen, finger, MOST_PLACES, share } from "./shared.ts";

/** The range of MIDI, in semitones: farther apart no two keys are. */
const WIDEST = 127;
/** More shapes than a hand is taught. */
const MOST_SHAPES = 200;

const shapeName = z.string().max(60);

export const handShapeSchema = z
  .object({
    name: z.string().min(1).max(60).describe("its name, unique among the shapes"),
    fingers: z.array(finger).min(1).max(5).describe("finger numbers from left to right, 1 the thumb"),
    semitones: z
      .array(z.int().min(-WIDEST).max(WIDEST))
      .min(1)
      .max(5)
      .describe("semitones above the first finger's key, one for each finger, the first 0"),
    anchorFinger: finger.describe("finger number by which its place is named, 1 the thumb"),
    anchorDegrees: z
      .array(
        z.object({
          degree: z.enum(DEGREES).describe("degree of the chord that the anchor finger stands on"),
          qualities: z
            .array(z.enum(QUALITIES))
            .max(QUALITIES.length)
            .describe("kinds of chord on which it does; empty for all"),
        }),
      )
      .max(DEGREES.length * QUALITIES.length)
      .describe("where it may stand on a chord"),
  })
  .meta({
    id: "HandShape",
    description: "what the hand holds: fingers, their distances, and where it may stand",
  });

const goalCheckSchema = z.discriminatedUnion("kind", [
  z.object({
    kind: z.literal("placement").describe("notes played with the anchor finger on a degree"),
    anchorDegree: z.enum(DEGREES).describe("degree under the anchor finger against the chord"),
    numeral: z
      .string()
      .max(20)
      .nullable()
      .default(null)
      .describe('on chords of this numeral ("IV"); null for all'),
    shape: shapeName.nullable().default(null).describe("in this shape; null for any"),
    least: z.int().min(1).max(MOST_PLACES).default(4).describe("least number of notes"),
  }),
  z.object({
    kind: z.literal("rests").describe("time in which the solo rests"),
    least: share.describe("least share of the time, 0 to 1"),
  }),
  z.object({
    kind: z.literal("runs").describe("notes in stepwise runs"),
    most: share.describe("greatest share of the notes, 0 to 1"),
  }),
  z.object({
    kind: z.literal("motif").describe("one motif of four notes or more that returns"),
    least: z.int().min(2).max(MOST_PLACES).describe("least number of times that it is heard"),
  }),
  z.object({
    kind: z.literal("slides").describe("slides from a black key"),
    least: z.int().min(1).max(MOST_PLACES).describe("least number of slides"),
  }),
  z.object({
    kind: z.literal("range").describe("from the lowest to the highest note"),
    least: z.int().min(1).max(MOST_PLACES).describe("least number of semitones"),
  }),
  z.object({
    kind: z.literal("guide tones").describe("chord changes met with a third or seventh within a beat"),
    least: share.describe("least share of the chord changes, 0 to 1"),
  }),
  z.object({
    kind: z.literal("answers").describe("phrases that answer the one before"),
    least: share.describe("least share of the phrases, 0 to 1"),
  }),
]);

export const goalSchema = z
  .object({
    text: z.string().min(1).max(300).describe("in the teacher's own words: second placement on the IV chord"),
    check: goalCheckSchema
      .nullable()
      .default(null)
      .describe("how it is checked; null for a goal in words only, which nobody but the teacher can judge"),
  })
  .meta({
    id: "Goal",
    description:
      "something that teacher and student agreed to work on, which the take is checked against first",
  });

const scaleChoiceSchema = z.object({
  bar: z.int().min(1).max(MOST_PLACES).describe("bar of the chart, number from 1"),
  beat: z.number().min(1).max(MOST_PLACES).describe("beat of the bar in the meter's own unit, 1 the first"),
  scale: z.string().max(60).describe('name of the scale: "mixolydian"'),
});

/** What the caller may decide; everything has a default, and the account says what was decided. */
export const optionsSchema = z
  .object({
    name: z
      .string()
      .default("take")
      .describe("name of the file, for the account and for telling formats apart when the bytes do not"),
    soloPart: z
      .string()
      .max(200)
      .nullable()
      .default(null)
      .describe("id of the part that carries the solo; null lets the program choose"),
    soloStaff: z
      .int()
      .min(1)
      .max(MOST_PLACES)
      .nullable()
      .default(null)
      .describe("staff of that part, number from 1; null lets the program choose"),
    soloHand: z
      .enum(["right", "left", "both"])
      .nullable()
      .default(null)
      .describe('hand that carries the line, "both" for lines of two hands; null lets the program choose'),
    pattern: z
      .int()
      .min(1)
      .max(65_535)
      .nullable()
      .default(null)
      .describe("pattern of a format 2 MIDI file, number from 1; null for all other files"),
    method: z
      .enum(["auto", "notated", "click", "tracked", "rubato"])
      .default("auto")
      .describe("how bars are found in time; auto lets the program choose"),
    chartConfirmed: z
      .boolean()
      .default(false)
      .describe(
        "true once somebody has said that the chart is right, however little the notes seem to fit it",
      ),
    tempo: z
      .number()
      .min(20)
      .max(400)
      .nullable()
      .default(null)
      .describe("known tempo in quarter notes a minute, 20 to 400; null lets it be heard"),
    anchors: z
      .array(anchorSchema)
      .max(MOST_PLACES)
      .default([])
      .describe("moments pinned to the chart, which the alignment goes through"),
    key: z
      .string()
      .max(20)
      .nullable()
      .default(null)
      .describe('key in place of the chart\'s own: "F"; null keeps that'),
    idiom: z
      .enum(["blues", "standard"])
      .nullable()
      .default(null)
      .describe("idiom in place of the chart's own; null keeps that"),
    scales: z
      .array(scaleChoiceSchema)
      .max(MOST_PLACES)
      .default([])
      .describe("scales chosen by the user for single chords of the chart"),
    shapes: z
      .array(shapeName)
      .max(MOST_SHAPES)
      .nullable()
      .default(null)
      .describe(
        "names of the shapes that the hand is explained by; an empty list for none, so that all is free fingering; null offers all that are known and lets the line give evidence of them",
      ),
    ownShapes: z
      .array(handShapeSchema)
      .max(MOST_SHAPES)
      .default([])
      .describe("shapes of the teacher's own, beside the built-in ones"),
    handSize: z
      .enum(["small", "middle", "large"])
      .optional()
      .describe("how large the player's hand is; decides only what is told as wide"),
    headChoruses: z
      .int()
      .min(0)
      .max(MOST_PLACES)
      .optional()
      .describe("choruses at the start that play the tune and are not counted as solo; left out for none"),
    corrections: correctionsSchema
      .default([])
      .describe("what somebody put right of single notes, one entry a note, by its name in the source"),
    seed: z.int().default(1).describe("seed of the permutation and bootstrap statistics, any whole number"),
    goals: z
      .array(goalSchema)
      .max(12)
      .default([])
      .describe("what the teacher asked for; checked before anything else is said"),
    lens: lensSchema
      .optional()
      .describe("what teacher and student work on, which the take is looked at through; left out for none"),
  })
  .meta({ id: "Options", description: "what was decided of the analysis, by the caller or by default" });

export type Goal = Frozen<z.infer<typeof goalSchema>>;
export type AnalyseOptions = Frozen<z.infer<typeof optionsSchema>>;
/** Options as a caller gives them: any of them may be left out. */
export type AnalyseOptionsInput = z.input<typeof optionsSchema>;
