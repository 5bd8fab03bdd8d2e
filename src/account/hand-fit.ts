/** Where the hand stood, and how well the shapes explain the solo. */
import { z } from "zod";
import { DEGREES } from "../chart/types.ts";
import { barField, beatField, chorusField, type Frozen, finger, noteId, share } from "./shared.ts";

const anchorPitch = z.int().describe("key under the anchor finger, MIDI number");
const shape = z.string().describe("name of the hand shape");

export const placementSchema = z
  .object({
    id: z.string().describe('"p1", "p2", ... in order; unique among the placements of the take'),
    shape,
    anchorPitch,
    anchorFinger: finger.describe("finger number by which the shape is named, 1 the thumb"),
    anchorDegree: z
      .enum(DEGREES)
      .nullable()
      .describe("degree under the anchor finger against the chord; null where there is none"),
    chord: z.string().nullable().describe('symbol of the chord that it begins on; null for "N.C."'),
    chorus: chorusField,
    bar: barField,
    beat: beatField,
    firstNote: noteId.describe("id of its first note"),
    lastNote: noteId.describe("id of its last note"),
    notes: z.int().describe("number of solo notes played in it"),
    shift: z
      .number()
      .nullable()
      .describe("semitones that the hand moved from the placement before, up above 0; null for the first"),
    fitsChord: z.boolean().describe("true where the shape has its place on this degree of such a chord"),
    overFree: z
      .number()
      .optional()
      .describe(
        "points by which it explains its notes better than the free hand would, moves left aside (one point is a factor e of odds); below 0 where it stands for the sake of what surrounds it",
      ),
  })
  .meta({
    id: "Placement",
    description: "a stretch of notes in which the hand stays in one shape at one place",
  });

const namedPlacementSchema = z
  .object({
    shape,
    anchorDegree: z.enum(DEGREES).describe("degree under the anchor finger against the chord"),
    anchor: z.string().describe('pitch class under the anchor finger, as the chord spells it: "Eb"'),
    notes: z.int().describe("number of solo notes played in it"),
  })
  .meta({
    id: "NamedPlacement",
    description: 'a placement as named on a chord: "third-and-steps, index on the fifth"',
  });

const shiftsSchema = z
  .object({
    count: z.int().describe("number of moves from one placement to another"),
    distance: z.number().describe("sum of their distances, in semitones"),
    median: z.number().nullable().describe("median of their distances, in semitones; null without moves"),
    late: z.array(noteId).describe("ids of notes still in the placement of the last chord after the change"),
    common: z
      .array(
        z.object({
          chorus: chorusField,
          bar: barField,
          beat: z.number().describe("beat of the bar in the meter's own unit, 1 the first"),
          taken: z.boolean().describe("true where it was kept, false where it could have been"),
          placement: z.string().describe("the placement that both chords share, in words"),
        }),
      )
      .describe("chord changes at which a placement common to both chords was kept, or could have been"),
  })
  .meta({ id: "Shifts", description: "how the hand moves" });

const slidesSchema = z
  .object({
    taken: z
      .array(
        z.object({
          from: noteId.describe("id of the note on the black key"),
          to: noteId.describe("id of the note that the finger slides to"),
          idiomatic: z.boolean().describe("true where it slides into a note of the chord's scale"),
        }),
      )
      .describe("slides that were played"),
    missed: z
      .array(noteId)
      .describe("ids of fourth-finger notes from which a slide was possible and not played"),
    possible: z.int().describe("number of slides that the keys allow in the placements used"),
    ideas: z
      .array(noteId)
      .optional()
      .describe(
        "ids of notes at which an idiomatic slide could be tried; nothing was left out by not playing it",
      ),
  })
  .meta({ id: "Slides", description: "one finger from a black key to the white key beside it" });

const alternativeSchema = z
  .object({
    firstNote: noteId.describe("id of the first note that it is of"),
    lastNote: noteId.describe("id of the last note that it is of"),
    fingers: z
      .array(finger.nullable())
      .describe("finger numbers of these notes, 1 the thumb; null outside the shape"),
    cost: z
      .number()
      .describe("points that it costs more than what was chosen (one point is a factor e of odds)"),
    shape,
    anchorPitch,
  })
  .meta({
    id: "PlacementAlternative",
    description: "another placement that explains the notes nearly as well",
  });

const freeAlternativeSchema = z
  .object({
    firstNote: noteId.describe("id of the first note that it is of"),
    lastNote: noteId.describe("id of the last note that it is of"),
    fingers: z
      .array(finger)
      .describe("finger numbers of the notes outside all placements, 1 the thumb, in order"),
    cost: z.number().describe("points that it costs more than what was chosen, at most 2"),
  })
  .meta({ id: "FreeAlternative", description: "other fingers for notes outside all placements" });

export const handFitSchema = z
  .object({
    share: share.describe("share of the solo notes that lie in a placement, 0 to 1"),
    byShape: z.record(z.string(), share).describe("the same by name of the shape, each 0 to 1"),
    byChorus: z
      .array(z.object({ chorus: chorusField, share: share.describe("share of its solo notes, 0 to 1") }))
      .describe("the same by chorus"),
    byChord: z
      .array(
        z.object({
          chord: z.string().describe("symbol of the chord"),
          share: share.describe("share of the solo notes on it that lie in a placement, 0 to 1"),
          used: z.array(namedPlacementSchema).describe("placements that were used on it"),
          unused: z
            .array(namedPlacementSchema)
            .describe("placements that the shapes have on it and that were not used"),
        }),
      )
      .describe("the same by chord, with the placements used and unused"),
    shifts: shiftsSchema.describe("moves of the hand"),
    slides: slidesSchema.describe("slides from black keys"),
    moved: z
      .array(
        z.object({
          firstNotes: z.array(noteId).describe("ids of the first note of each place at which it is played"),
          fingers: z.array(finger).describe("the finger numbers that they share, 1 the thumb"),
        }),
      )
      .describe("the same fingering moved to another placement"),
    cost: z
      .number()
      .describe("points that the account of the hand costs; the cheapest is the one that is given"),
    margin: z
      .number()
      .optional()
      .describe(
        "points by which a placement must explain the notes better than the free hand for the hand to go from the one into the other (one point is a factor e of odds)",
      ),
    alternatives: z.array(alternativeSchema).describe("other placements, at most 2 points dearer"),
    freeAlternatives: z
      .array(freeAlternativeSchema)
      .optional()
      .describe("other fingers, at most 2 points dearer, of notes outside every placement"),
    stretches: z
      .array(
        z.object({
          from: noteId.describe("id of the first note"),
          to: noteId.describe("id of the second note"),
          fingers: z.tuple([finger, finger]).describe("the pair of finger numbers, 1 the thumb"),
          semitones: z.number().describe("semitones between them"),
        }),
      )
      .describe("stretches beyond the comfortable span of a pair of fingers"),
    beyond: z
      .array(noteId)
      .optional()
      .describe("added: ids of notes that lie further apart than the fingers can go, in time order"),
    caution: z
      .string()
      .nullable()
      .describe("the usual care of the hand where a stretch or a wide shape occurs; else null"),
    registers: z
      .array(
        z.object({
          name: z.string().describe("name of the register"),
          low: z.int().describe("its lowest key, MIDI number"),
          high: z.int().describe("its highest key, MIDI number"),
          notes: z.int().describe("number of solo notes in it; 0 where it was never visited"),
        }),
      )
      .optional()
      .describe("solo notes by register of the keyboard"),
  })
  .meta({ id: "HandFit", description: "how well hand shapes explain the solo" });

export type AccountPlacement = Frozen<z.infer<typeof placementSchema>>;
/** Not frozen: it is filled in step by step before it becomes part of an account. */
export type HandFit = z.infer<typeof handFitSchema>;
