/** What a practice sheet and its exercises are: pure data, to be engraved, played or sent. */
import { z } from "zod";
import { type Frozen, meterSchema } from "../account.ts";
import { DEGREES } from "../chart/types.ts";
import { PRACTICE_KINDS } from "./kinds.ts";

const finger = z.union([z.literal(1), z.literal(2), z.literal(3), z.literal(4), z.literal(5)]);

const exercisePlacementSchema = z
  .object({
    shape: z.string().describe("name of the hand shape"),
    anchorFinger: finger.describe("finger number by which its place is named, 1 the thumb"),
    anchorPitch: z.int().describe("key under the anchor finger, MIDI number"),
    anchorDegree: z.enum(DEGREES).describe("degree under the anchor finger against the chord"),
  })
  .meta({ id: "ExercisePlacement", description: "where the hand stands for a note of an exercise" });

const exerciseNoteSchema = z
  .object({
    at: z.number().describe("when it begins, in quarter-note beats from the bar line"),
    beats: z.number().describe("length in quarter-note beats; 0 for the black key of a slide"),
    pitch: z.int().describe("MIDI number"),
    spelling: z.string().describe('name with its octave, middle C is "C4": "Eb4"'),
    finger: finger.nullable().describe("finger number, 1 the thumb; null for none"),
    placement: exercisePlacementSchema
      .nullable()
      .describe(
        "where the hand stands; null for a note outside any shape (an approach from a half step below)",
      ),
    slide: z
      .enum(["from", "to"])
      .nullable()
      .describe(
        "for a key that a finger slides from, and for the key that it slides to; null for all others",
      ),
  })
  .meta({ id: "ExerciseNote", description: "a note of an exercise" });

const exerciseBarSchema = z
  .object({
    chords: z
      .array(
        z.object({
          at: z.number().describe("when it begins, in quarter-note beats from the bar line"),
          symbol: z.string().describe("chord symbol"),
        }),
      )
      .describe("the chords of the bar"),
    notes: z.array(exerciseNoteSchema).describe("its notes; empty in a bar that is left to the student"),
    words: z
      .string()
      .nullable()
      .describe('words above the bar: "index on the fifth", "your answer"; null for none'),
    newLine: z.boolean().describe("true where a new line of the page begins"),
  })
  .meta({ id: "ExerciseBar", description: "a bar of an exercise" });

const tempoStepSchema = z
  .object({
    quartersPerMinute: z.number().nullable().describe("tempo in quarter notes a minute; null in free time"),
    click: z.enum(["none", "every beat", "two and four"]).describe("where the click falls"),
    rounds: z.number().describe("number of clean rounds before the next step"),
  })
  .meta({ id: "TempoStep", description: "one step of the way from slow to the tempo of the take" });

export const exerciseSchema = z
  .object({
    id: z
      .string()
      .describe('"1", "2", ...: its place on the sheet; one is left out where a key has no keys for it'),
    finding: z
      .string()
      .nullable()
      .describe(
        'id of the finding; "lens" for what follows from the lens; null when it is there for every student',
      ),
    kind: z.enum(PRACTICE_KINDS).describe("what is practised"),
    title: z.string().describe("its title"),
    text: z.string().describe("how it is practised"),
    key: z.string().describe('its key: "F", "Gm"'),
    fifths: z.number().describe("key signature, number of sharps above 0, of flats below"),
    keyChanges: z
      .array(
        z.object({
          bar: z.int().describe("bar of the exercise before which the signature changes, number from 1"),
          key: z.string().describe('the new key: "Eb", "Cm"'),
          fifths: z.number().describe("its signature, number of sharps above 0, of flats below"),
          mode: z.enum(["major", "minor"]).describe("its mode"),
        }),
      )
      .describe("where the key changes on the way, as the chart has it; empty where it does not"),
    mode: z.enum(["major", "minor"]).describe("mode of the key"),
    meter: meterSchema.describe("its time signature"),
    swing: z.boolean().describe("true where eighths are swung"),
    swingRatio: z
      .number()
      .nullable()
      .describe("ratio of the first to the second part of a swung pair, the take's own; null where even"),
    bars: z.array(exerciseBarSchema).describe("its bars"),
    tempoPlan: z.array(tempoStepSchema).describe("the tempos to practise it in, slow to full"),
    caution: z.string().nullable().describe("the usual care of the hand where a shape is wide; else null"),
  })
  .meta({ id: "Exercise", description: "something to play, in notation, that follows from a finding" });

export const practiceSheetSchema = z
  .object({
    title: z.string().describe("its title"),
    chart: z.string().describe("name of the chart"),
    keys: z.array(z.string()).describe("keys of the exercises, the chart's own first"),
    idea: z
      .array(z.string())
      .describe(
        "ids of the notes of the take from which the student's own idea comes; empty when it is borrowed",
      ),
    exercises: z.array(exerciseSchema).describe("the exercises"),
  })
  .meta({ id: "PracticeSheet", description: "what a student takes home" });

export type ExercisePlacement = Frozen<z.output<typeof exercisePlacementSchema>>;
export type ExerciseNote = Frozen<z.output<typeof exerciseNoteSchema>>;
export type ExerciseBar = Frozen<z.output<typeof exerciseBarSchema>>;
export type TempoStep = Frozen<z.output<typeof tempoStepSchema>>;
export type Exercise = Frozen<z.output<typeof exerciseSchema>>;
export type PracticeSheet = Frozen<z.output<typeof practiceSheetSchema>>;
