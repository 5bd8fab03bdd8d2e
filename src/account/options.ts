/** What the caller may decide of an analysis. */
import { z } from "zod";
import { DEGREES, QUALITIES } from "../chart/types.ts";
import { anchorSchema, type Frozen, finger, MOST_PLACES, share } from "./shared.ts";

export const handShapeSchema = z.object({
  name: z.string().min(1).max(60),
  fingers: z.array(finger).min(1).max(5),
  semitones: z.array(z.int()).min(1).max(5),
  anchorFinger: finger,
  anchorDegrees: z.array(z.object({ degree: z.enum(DEGREES), qualities: z.array(z.enum(QUALITIES)) })),
});

/**
 * Something that teacher and student agreed to work on, which the take is checked against first. `check` null is a
 * goal in words only, which nobody but the teacher can judge.
 */
export const goalSchema = z.object({
  /** In the teacher's own words: "second placement on the IV chord". */
  text: z.string().min(1).max(300),
  check: z
    .discriminatedUnion("kind", [
      /** Notes played with the anchor finger on this degree, on chords of this numeral ("IV"; null for all). */
      z.object({
        kind: z.literal("placement"),
        anchorDegree: z.enum(DEGREES),
        numeral: z.string().nullable().default(null),
        shape: z.string().nullable().default(null),
        least: z.int().min(1).max(MOST_PLACES).default(4),
      }),
      /** Share of the time in which the solo rests. */
      z.object({ kind: z.literal("rests"), least: share }),
      /** Share of the notes in stepwise runs. */
      z.object({ kind: z.literal("runs"), most: share }),
      /** Times that one motif of four notes or more is heard. */
      z.object({ kind: z.literal("motif"), least: z.int().min(2).max(MOST_PLACES) }),
      /** Slides from a black key. */
      z.object({ kind: z.literal("slides"), least: z.int().min(1).max(MOST_PLACES) }),
      /** Semitones between the lowest and the highest note. */
      z.object({ kind: z.literal("range"), least: z.int().min(1).max(MOST_PLACES) }),
      /** Share of chord changes met with a third or seventh within the first beat. */
      z.object({ kind: z.literal("guide tones"), least: share }),
      /** Share of phrases that answer the one before. */
      z.object({ kind: z.literal("answers"), least: share }),
    ])
    .nullable()
    .default(null),
});

/** What the caller may decide; everything has a default, and the account says what was decided. */
export const optionsSchema = z.object({
  /** Name of the file, for the account and for telling formats apart when the bytes do not. */
  name: z.string().default("take"),
  /** Part that carries the solo (`Part.id`); null lets the program choose. */
  soloPart: z.string().nullable().default(null),
  /** Staff of that part, from 1; null lets the program choose. */
  soloStaff: z.int().min(1).max(MOST_PLACES).nullable().default(null),
  /** Hand that carries the line; "both" for two-hand lines; null lets the program choose. */
  soloHand: z.enum(["right", "left", "both"]).nullable().default(null),
  /** Pattern of a format 2 MIDI file, from 1. */
  pattern: z.int().min(1).max(65_535).nullable().default(null),
  method: z.enum(["auto", "notated", "click", "tracked", "rubato"]).default("auto"),
  /** True once somebody has said that the chart is the right one, however little the notes seem to fit it. */
  chartConfirmed: z.boolean().default(false),
  /** Known tempo in quarter notes a minute, or null. */
  tempo: z.number().min(20).max(400).nullable().default(null),
  anchors: z.array(anchorSchema).max(MOST_PLACES).default([]),
  key: z.string().nullable().default(null),
  idiom: z.enum(["blues", "standard"]).nullable().default(null),
  /** Scales chosen by the user for single chords of the chart. */
  scales: z
    .array(
      z.object({
        bar: z.int().min(1).max(MOST_PLACES),
        beat: z.number().min(1).max(MOST_PLACES),
        scale: z.string(),
      }),
    )
    .max(MOST_PLACES)
    .default([]),
  /**
   * Names of the shapes that the hand is explained by; an empty list for none, so that all is free fingering; null
   * offers all that are known and lets the line give evidence of them.
   */
  shapes: z.array(z.string()).nullable().default(null),
  /** Shapes of the teacher's own, beside the built-in ones. */
  ownShapes: z.array(handShapeSchema).default([]),
  /** Added: how large the player's hand is; decides only what is told as wide. */
  handSize: z.enum(["small", "middle", "large"]).optional(),
  /** Seed of the permutation and bootstrap statistics. */
  seed: z.int().default(1),
  /** Added: what the teacher asked for; checked before anything else is said. */
  goals: z.array(goalSchema).max(12).default([]),
});

export type Goal = Frozen<z.infer<typeof goalSchema>>;
export type AnalyseOptions = Frozen<z.infer<typeof optionsSchema>>;
/** Options as a caller gives them: any of them may be left out. */
export type AnalyseOptionsInput = z.input<typeof optionsSchema>;
