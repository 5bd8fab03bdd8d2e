/** What `placementMap` gives: pure data, to be drawn, printed or sent. Pitches are MIDI numbers, distances semitones. */
import { z } from "zod";
import type { Frozen } from "../account.ts";
import { DEGREES } from "../chart/types.ts";

const finger = z.union([z.literal(1), z.literal(2), z.literal(3), z.literal(4), z.literal(5)]);
const fingerNumber = finger.describe("finger number, 1 the thumb");
const degree = z.enum(DEGREES).describe("degree against the root of the chord");

const namedKeySchema = z.object({
  pitchClass: z.int().min(0).max(11).describe("pitch class as a number, 0 (C) to 11 (B)"),
  name: z.string().describe("its name as the chord spells it"),
  degree,
});

export const mappedKeySchema = namedKeySchema
  .extend({
    pitch: z.int().describe("MIDI number"),
    finger: fingerNumber,
    black: z.boolean().describe("true for a black key"),
    kind: z
      .enum(["chord tone", "scale tone", "blue", "avoid", "outside"])
      .describe("colour against the chord: of it, of its scale, blue, to be avoided, or none of these"),
  })
  .meta({ id: "MappedKey", description: "a key under a finger of a placement" });

const mappedSlideSchema = z
  .object({
    finger: fingerNumber,
    from: z.int().describe("the black key, MIDI number"),
    to: z.int().describe("the white key, MIDI number"),
    fromName: z.string().describe("name of the black key as the chord spells it"),
    toName: z.string().describe("name of the white key as the chord spells it"),
    toDegree: z.enum(DEGREES).describe("degree that it slides to"),
    manner: z
      .enum(["idiomatic", "bold"])
      .describe("idiomatic into a note of the chord's scale that is not to be avoided, else bold"),
  })
  .meta({ id: "MappedSlide", description: "a slide that a placement offers" });

export const mappedPlacementSchema = z
  .object({
    id: z.string().describe("unique in the map"),
    name: z.string().describe('its name: "third-and-steps, index finger on G"'),
    shape: z.string().describe("name of the hand shape"),
    anchorFinger: finger.describe("finger number by which its place is named, 1 the thumb"),
    anchorDegree: z.enum(DEGREES).describe("degree under the anchor finger against the chord"),
    anchor: z.string().describe("pitch class under the anchor finger, as the chord spells it"),
    anchorPitch: z.int().describe("key under the anchor finger, MIDI number"),
    keys: z
      .array(mappedKeySchema)
      .describe("its keys in the middle of the keyboard, rising; every octave is a transposition of it"),
    slides: z.array(mappedSlideSchema).describe("slides that it offers"),
    leftOut: z
      .array(namedKeySchema.extend({ avoid: z.boolean().describe("true for a note to be avoided") }))
      .describe("notes of the chord's scale that are under no finger"),
    commonWithNext: z
      .array(
        z.object({ pitch: z.int().describe("MIDI number"), name: z.string().describe("its name"), degree }),
      )
      .describe("keys that are tones of the next chord too"),
    sharedWithNext: z.boolean().describe("true where the hand may stay for the next chord"),
    wide: z
      .array(
        z.object({
          fingers: z.tuple([finger, finger]).describe("the pair of finger numbers, 1 the thumb"),
          semitones: z.int().describe("semitones between them"),
        }),
      )
      .describe("pairs of fingers that reach beyond the comfortable span"),
  })
  .meta({ id: "MappedPlacement", description: "a place at which a shape may stand on a chord" });

export const mappedChordSchema = z
  .object({
    span: z.int().describe("number of the chord in the form, from 0"),
    bar: z.int().describe("bar of the chart, number from 1"),
    beat: z.number().describe("beat of the bar in the meter's own unit, 1 the first"),
    beats: z.number().describe("length in quarter-note beats"),
    symbol: z.string().describe('chord symbol; "N.C." where no chord sounds'),
    scale: z.string().describe("name of the scale that is played over it"),
    placements: z.array(mappedPlacementSchema).describe("where the shapes may stand on it"),
  })
  .meta({ id: "MappedChord", description: "a chord with every placement on it" });

const wayStepSchema = z.object({
  span: z.int().describe("number of the chord in the form, from 0"),
  placement: z
    .string()
    .nullable()
    .describe("id of the placement; null on a chord that the shapes have no place on: the hand waits"),
  anchorPitch: z.int().nullable().describe("key under the anchor finger, MIDI number; null while it waits"),
  shift: z
    .int()
    .nullable()
    .describe(
      "semitones from the step before, up above 0; of the first step from the last one round the form; null while it waits",
    ),
});

export const placementMapSchema = z
  .object({
    chart: z
      .object({
        name: z.string().nullable().describe("name of the chart; null for none"),
        key: z.string().describe('its key: "F", "Gm"'),
      })
      .describe("the chart"),
    hand: z.enum(["right", "left"]).describe("the hand that plays"),
    shapes: z.array(z.string()).describe("names of the shapes that were asked for"),
    chords: z.array(mappedChordSchema).describe("the chords of the form, in order"),
    way: z
      .object({
        steps: z.array(wayStepSchema).describe("where the hand stands on each chord"),
        distance: z.number().describe("sum of all moves in semitones, the return to the first step included"),
        kept: z.int().describe("number of chords that are reached without moving"),
      })
      .describe("the way through the form, and back to its beginning, on which the hand moves least"),
    caution: z.string().nullable().describe("the usual care of the hand where a shape is wide; else null"),
  })
  .meta({ id: "PlacementMap", description: "where the hand may stand on every chord of a chart" });

export type PlacementMap = Frozen<z.infer<typeof placementMapSchema>>;
export type MappedChord = Frozen<z.infer<typeof mappedChordSchema>>;
export type MappedPlacement = Frozen<z.infer<typeof mappedPlacementSchema>>;
export type MappedKey = Frozen<z.infer<typeof mappedKeySchema>>;
