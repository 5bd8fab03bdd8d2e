/** A pattern as requests give it: symbols of a viewpoint, or notes that were played or picked. */
import { z } from "zod";
import { MOTIF_VIEWPOINTS } from "../../src/account.ts";
import { DEGREES } from "../../src/chart/index.ts";
import { checkPattern, type MotifPattern, patternOf } from "../../src/motif/index.ts";
import { HttpProblem } from "../errors.ts";

export const patternSchema = z.object({
  viewpoint: z.enum(MOTIF_VIEWPOINTS),
  symbols: z.array(z.union([z.number(), z.string().max(60)])).max(256),
  /** Number of notes. */
  notes: z.int(),
});

const patternNote = z.object({
  pitch: z.int().min(0).max(127),
  position: z.number().nullish().describe("quarter-note beats"),
  degree: z.enum(DEGREES).nullish(),
  finger: z.union([z.literal(1), z.literal(2), z.literal(3), z.literal(4), z.literal(5)]).nullish(),
});

export const patternFields = z.object({
  viewpoint: z.enum(MOTIF_VIEWPOINTS).default("chromatic interval"),
  symbols: patternSchema.shape.symbols.optional().describe("as an account's motif has them"),
  notes: z.array(patternNote).max(256).optional().describe("notes in time order, in place of symbols"),
  maxEdits: z.int().min(0).max(16).default(0).describe("notes that may be changed, added or left out"),
  limit: z.int().min(1).max(5000).default(100),
});

const hitSchema = z.object({
  take: z.string(),
  firstNote: z.string(),
  lastNote: z.string(),
  notes: z.int(),
  chorus: z.int(),
  bar: z.int(),
  beat: z.number().nullable(),
  edits: z.int(),
  pitch: z.int(),
});

const pitches = z.array(z.int());

export const hitsSchema = z.object({
  /** Number of hits in all. */
  found: z.int(),
  hits: z.array(
    hitSchema.extend({
      before: pitches,
      pitches,
      after: pitches,
      /** Ids of all these notes, and their names in the account. */
      ids: z.array(z.string()),
      spellings: z.array(z.string()),
      /** Of all these notes, in seconds from the first one of the hit. */
      onsets: z.array(z.number()),
    }),
  ),
});

/** Throws a `Problem` when there is no pattern, or one that the viewpoint cannot read. */
export function patternFrom(fields: z.infer<typeof patternFields>): MotifPattern {
  if (fields.symbols !== undefined) {
    return checkPattern({ viewpoint: fields.viewpoint, symbols: fields.symbols });
  }
  if (fields.notes !== undefined) {
    return patternOf(
      fields.notes.map(({ pitch, position, degree, finger }) => ({
        pitch,
        position: position ?? null,
        degree: degree ?? null,
        finger: finger ?? null,
      })),
      fields.viewpoint,
    );
  }
  throw new HttpProblem(
    400,
    "pattern-missing",
    "There is no pattern in the request",
    "body.symbols",
    "Give symbols of the viewpoint, or notes.",
  );
}
