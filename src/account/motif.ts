/** Ideas that return. */
import { z } from "zod";
import { barField, beatField, chorusField, type Frozen, noteId, share } from "./shared.ts";

export const MOTIF_VIEWPOINTS = [
  "chromatic interval",
  "interval and rhythm",
  "degree",
  "contour",
  "rhythm",
  "finger",
] as const;

export const MOTIF_RELATIONS = ["exact", "transposed", "same fingering", "rhythm", "varied"] as const;

/** How an idea comes back: taken up again, run through here and there, or moved on from where it ended. */
export const MOTIF_WAYS = ["return", "formula", "sequence"] as const;

const occurrenceSchema = z
  .object({
    firstNote: noteId.describe("id of its first note"),
    lastNote: noteId.describe("id of its last note"),
    chorus: chorusField,
    bar: barField,
    beat: beatField,
    relation: z.enum(MOTIF_RELATIONS).describe("how it stands to the first occurrence"),
    change: z.string().describe('what was changed ("one note added", "inverted", ...); empty when nothing'),
    transposition: z
      .number()
      .nullable()
      .describe("semitones from the first occurrence, up above 0; null when it is no transposition"),
    notes: z.int().describe("number of its notes, which a varied occurrence may have more or fewer of"),
    phrase: z.string().nullable().describe("id of the phrase in which it starts; null for none"),
  })
  .meta({ id: "Occurrence", description: "one time that an idea is heard" });

export const motifSchema = z
  .object({
    id: z
      .string()
      .describe(
        '"m1", "m2", ... the weightiest first, those of the hand after the others; unique in the take',
      ),
    viewpoint: z.enum(MOTIF_VIEWPOINTS).describe("what it is that returns"),
    pattern: z
      .array(z.union([z.number(), z.string()]))
      .describe("symbols of the viewpoint; chromatic intervals are numbers of semitones"),
    length: z.int().describe("number of notes"),
    occurrences: z.array(occurrenceSchema).describe("each time that it is heard, in order"),
    expected: z.number().describe("number of occurrences that chance alone would give"),
    q: z.number().describe("false-discovery rate at which it is kept, 0 to 1"),
    coverage: share.describe("share of the solo notes that its occurrences cover, 0 to 1"),
    compactness: share.describe(
      "share of the notes from first to last of an occurrence that belong to it, over all occurrences, 0 to 1",
    ),
    way: z
      .enum(MOTIF_WAYS)
      .optional()
      .describe(
        "how it comes back: taken up again (return), run through inside lines here and there (formula), or moved on right from where it ended (sequence)",
      ),
    openings: share.optional().describe("share of its occurrences that open a phrase, 0 to 1"),
    weight: z
      .number()
      .describe("rank number without a unit, above 0: the greater, the more it says of the solo"),
    development: z
      .object({
        firstHeard: z
          .object({ chorus: chorusField, bar: barField })
          .describe("where it is heard for the first time"),
        byChorus: z
          .array(
            z.object({
              chorus: chorusField,
              occurrences: z.int().describe("number of times that it is heard in it"),
            }),
          )
          .describe("how often it is heard in each chorus"),
        carriedOver: z
          .array(z.int())
          .describe("choruses after the first in which it returns, numbers from 1"),
        droppedFrom: z
          .int()
          .nullable()
          .describe("chorus, number from 1, from which on it is not heard; null when it lasts to the end"),
      })
      .describe("its life over the choruses"),
    answers: z
      .array(
        z.object({
          call: z.string().describe("id of the phrase that has the idea first"),
          answer: z.string().describe("id of the next phrase, which takes it up"),
        }),
      )
      .describe("neighbouring phrases of which the second takes up the idea of the first"),
  })
  .meta({ id: "Motif", description: "an idea that returns more often than chance" });

export type AccountMotif = Frozen<z.infer<typeof motifSchema>>;
export type MotifViewpoint = (typeof MOTIF_VIEWPOINTS)[number];
export type MotifWay = (typeof MOTIF_WAYS)[number];
export type MotifRelation = (typeof MOTIF_RELATIONS)[number];
