/** Ideas that return. */
import { z } from "zod";
import { type Frozen, noteId, share } from "./shared.ts";

export const MOTIF_VIEWPOINTS = [
  "chromatic interval",
  "interval and rhythm",
  "degree",
  "contour",
  "rhythm",
  "finger",
] as const;

export const MOTIF_RELATIONS = ["exact", "transposed", "same fingering", "rhythm", "varied"] as const;

export const motifSchema = z.object({
  id: z.string(),
  viewpoint: z.enum(MOTIF_VIEWPOINTS),
  pattern: z.array(z.union([z.number(), z.string()])),
  /** Number of notes. */
  length: z.int(),
  occurrences: z.array(
    z.object({
      firstNote: noteId,
      lastNote: noteId,
      chorus: z.int(),
      bar: z.int(),
      beat: z.number().nullable(),
      relation: z.enum(MOTIF_RELATIONS),
      /** What was changed: "one note added", "inverted", ...; "" when nothing. */
      change: z.string(),
      /** Semitones from the first occurrence, or null when it is no transposition. */
      transposition: z.number().nullable(),
      /** Added: number of notes, which a varied occurrence may have more or fewer of. */
      notes: z.int(),
      /** Added: id of the phrase in which it starts, or null. */
      phrase: z.string().nullable(),
    }),
  ),
  /** Number of occurrences that chance alone would give. */
  expected: z.number(),
  /** False-discovery rate at which it is kept. */
  q: z.number(),
  /** Added: share of the solo's notes that its occurrences cover. */
  coverage: share,
  /** Added: share of the notes from the first to the last note of an occurrence that belong to it, taken over all. */
  compactness: share,
  /** Added: rank weight, the greater the more it says of the solo. */
  weight: z.number(),
  /** Added: its life over the choruses. */
  development: z.object({
    firstHeard: z.object({ chorus: z.int(), bar: z.int() }),
    byChorus: z.array(z.object({ chorus: z.int(), occurrences: z.int() })),
    /** Choruses after the first in which it returns. */
    carriedOver: z.array(z.int()),
    /** Chorus from which on it is not heard any more; null when it lasts to the end. */
    droppedFrom: z.int().nullable(),
  }),
  /** Added: neighbouring phrases of which the second takes up the idea of the first. */
  answers: z.array(z.object({ call: z.string(), answer: z.string() })),
});

export type AccountMotif = Frozen<z.infer<typeof motifSchema>>;
export type MotifViewpoint = (typeof MOTIF_VIEWPOINTS)[number];
export type MotifRelation = (typeof MOTIF_RELATIONS)[number];
