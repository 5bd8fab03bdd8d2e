/** What `placementMap` gives: pure data, to be drawn, printed or sent. Pitches are MIDI numbers, distances semitones. */
import { z } from "zod";
import { DEGREES } from "../chart/types.ts";

const finger = z.union([z.literal(1), z.literal(2), z.literal(3), z.literal(4), z.literal(5)]);

const namedKeySchema = z.object({
  pitchClass: z.int().min(0).max(11),
  /** As the chord spells it. */
  name: z.string(),
  degree: z.enum(DEGREES),
});

export const mappedKeySchema = namedKeySchema.extend({
  pitch: z.int(),
  finger,
  black: z.boolean(),
  /** Colour against the chord: of the chord, of its scale, blue, to be avoided, or none of these. */
  kind: z.enum(["chord tone", "scale tone", "blue", "avoid", "outside"]),
});

const mappedSlideSchema = z.object({
  finger,
  from: z.int(),
  to: z.int(),
  fromName: z.string(),
  toName: z.string(),
  toDegree: z.enum(DEGREES),
  /** "idiomatic" into a note of the chord's scale that is not to be avoided, else "bold". */
  manner: z.enum(["idiomatic", "bold"]),
});

export const mappedPlacementSchema = z.object({
  /** Unique in the map. */
  id: z.string(),
  /** "third-and-steps, index finger on G". */
  name: z.string(),
  shape: z.string(),
  anchorFinger: finger,
  anchorDegree: z.enum(DEGREES),
  anchor: z.string(),
  anchorPitch: z.int(),
  /** In the middle of the keyboard, rising; every octave is a transposition of it. */
  keys: z.array(mappedKeySchema),
  slides: z.array(mappedSlideSchema),
  /** Notes of the chord's scale that are under no finger. */
  leftOut: z.array(namedKeySchema.extend({ avoid: z.boolean() })),
  /** Keys that are tones of the next chord too. */
  commonWithNext: z.array(z.object({ pitch: z.int(), name: z.string(), degree: z.enum(DEGREES) })),
  /** True where the hand may stay for the next chord. */
  sharedWithNext: z.boolean(),
  /** Pairs of fingers that reach beyond the comfortable span. */
  wide: z.array(z.object({ fingers: z.tuple([finger, finger]), semitones: z.int() })),
});

export const mappedChordSchema = z.object({
  span: z.int(),
  bar: z.int(),
  beat: z.number(),
  /** In quarter-note beats. */
  beats: z.number(),
  /** "N.C." where no chord sounds. */
  symbol: z.string(),
  scale: z.string(),
  placements: z.array(mappedPlacementSchema),
});

export const placementMapSchema = z.object({
  chart: z.object({ name: z.string().nullable(), key: z.string() }),
  hand: z.enum(["right", "left"]),
  shapes: z.array(z.string()),
  chords: z.array(mappedChordSchema),
  /** The way through the form, and back to its beginning, on which the hand moves least. */
  way: z.object({
    steps: z.array(
      z.object({
        span: z.int(),
        /** Id of the placement; null on a chord that the shapes have no place on: the hand waits. */
        placement: z.string().nullable(),
        anchorPitch: z.int().nullable(),
        /** Semitones up (+) or down (-) from the step before; of the first step, from the last one round the form. */
        shift: z.int().nullable(),
      }),
    ),
    /** Sum of all moves, the return to the first step included. */
    distance: z.number(),
    /** Number of chords that are reached without moving. */
    kept: z.int(),
  }),
  caution: z.string().nullable(),
});

export type PlacementMap = z.infer<typeof placementMapSchema>;
export type MappedChord = z.infer<typeof mappedChordSchema>;
export type MappedPlacement = z.infer<typeof mappedPlacementSchema>;
export type MappedKey = z.infer<typeof mappedKeySchema>;
