/** Where the hand stood, and how well the shapes explain the solo. */
import { z } from "zod";
import { DEGREES } from "../chart/types.ts";
import { type Frozen, finger, noteId, share } from "./shared.ts";

export const placementSchema = z.object({
  id: z.string(),
  shape: z.string(),
  anchorPitch: z.int(),
  anchorFinger: finger,
  anchorDegree: z.enum(DEGREES).nullable(),
  chord: z.string().nullable(),
  chorus: z.int(),
  bar: z.int(),
  beat: z.number().nullable(),
  firstNote: noteId,
  lastNote: noteId,
  notes: z.int(),
  shift: z.number().nullable(),
  fitsChord: z.boolean(),
});

/** A placement as named on a chord: "third-and-steps, index on the fifth". */
const namedPlacementSchema = z.object({
  shape: z.string(),
  anchorDegree: z.enum(DEGREES),
  /** Pitch class under the anchor finger, spelled. */
  anchor: z.string(),
  notes: z.int(),
});

export const handFitSchema = z.object({
  /** Share of solo notes in a placement. */
  share,
  byShape: z.record(z.string(), share),
  byChorus: z.array(z.object({ chorus: z.int(), share })),
  byChord: z.array(
    z.object({
      chord: z.string(),
      share,
      used: z.array(namedPlacementSchema),
      unused: z.array(namedPlacementSchema),
    }),
  ),
  shifts: z.object({
    count: z.int(),
    /** Sum of distances in semitones. */
    distance: z.number(),
    median: z.number().nullable(),
    /** Notes still in the last chord's placement after the change. */
    late: z.array(noteId),
    /** Chord changes at which a placement common to both chords was kept, or could have been. */
    common: z.array(
      z.object({
        chorus: z.int(),
        bar: z.int(),
        beat: z.number(),
        taken: z.boolean(),
        placement: z.string(),
      }),
    ),
  }),
  slides: z.object({
    taken: z.array(z.object({ from: noteId, to: noteId, idiomatic: z.boolean() })),
    /** Slides that the keys allow in the placements used but that were not played, as note ids of the fourth finger. */
    missed: z.array(noteId),
    possible: z.int(),
    /** Added: places where an idiomatic slide could be tried, as ideas; nothing was left out by not playing it. */
    ideas: z.array(noteId).optional(),
  }),
  /** The same fingering moved to another placement. */
  moved: z.array(z.object({ firstNotes: z.array(noteId), fingers: z.array(finger) })),
  cost: z.number(),
  alternatives: z.array(
    z.object({
      firstNote: noteId,
      lastNote: noteId,
      fingers: z.array(finger.nullable()),
      /** How much dearer than the account that was chosen. */
      cost: z.number(),
      /** Added: the other placement. */
      shape: z.string(),
      anchorPitch: z.int(),
    }),
  ),
  /** Added: other fingers, at most two points dearer, of notes outside every placement; parallel to those notes. */
  freeAlternatives: z
    .array(z.object({ firstNote: noteId, lastNote: noteId, fingers: z.array(finger), cost: z.number() }))
    .optional(),
  /** Stretches beyond the comfortable span of a pair of fingers. */
  stretches: z.array(
    z.object({ from: noteId, to: noteId, fingers: z.tuple([finger, finger]), semitones: z.number() }),
  ),
  /** The usual caution when a stretch or a wide shape occurs, else null. */
  caution: z.string().nullable(),
  /** Added: notes in each register of the keyboard; those with 0 were never visited. */
  registers: z.array(z.object({ name: z.string(), low: z.int(), high: z.int(), notes: z.int() })).optional(),
});

export type AccountPlacement = Frozen<z.infer<typeof placementSchema>>;
/** Not frozen: it is filled in step by step before it becomes part of an account. */
export type HandFit = z.infer<typeof handFitSchema>;
