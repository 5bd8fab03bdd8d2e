/** Patterns as requests give them (symbols of a viewpoint, or notes that were played or picked), and where they are found. */
import { z } from "zod";
import { type Frozen, MOTIF_VIEWPOINTS } from "../../src/account.ts";
import { DEGREES } from "../../src/chart/index.ts";
import { titlesField } from "./fields.ts";

const viewpoint = z.enum(MOTIF_VIEWPOINTS);

/** Intervals, degrees and fingers are far below. */
const MOST_SYMBOL = 1000;
/** Quarter-note beats; more than a day of playing holds. */
const MOST_BEATS = 1_000_000;

export const patternSchema = z
  .object({
    viewpoint: viewpoint.describe("what of the notes is compared"),
    symbols: z
      .array(z.union([z.number().min(-MOST_SYMBOL).max(MOST_SYMBOL), z.string().max(60)]))
      .max(256)
      .describe("symbols of the viewpoint, as an account's motif has them; chromatic intervals in semitones"),
    notes: z.int().describe("number of notes"),
  })
  .meta({ id: "Pattern", description: "an idea that can be named, kept and found again" });

const patternNote = z.object({
  pitch: z.int().min(0).max(127).describe("MIDI number, 0 to 127"),
  position: z
    .number()
    .min(-MOST_BEATS)
    .max(MOST_BEATS)
    .nullish()
    .describe("place in time, in quarter-note beats from anywhere"),
  degree: z.enum(DEGREES).nullish().describe("degree against the chord, for the viewpoint of degrees"),
  finger: z
    .union([z.literal(1), z.literal(2), z.literal(3), z.literal(4), z.literal(5)])
    .nullish()
    .describe("finger number, 1 the thumb, for the viewpoint of fingers"),
});

export const patternFields = z.object({
  viewpoint: viewpoint.default("chromatic interval").describe("what of the notes is compared"),
  symbols: patternSchema.shape.symbols
    .optional()
    .describe("as an account's motif has them, numbers in semitones"),
  notes: z.array(patternNote).max(256).optional().describe("notes in time order, in place of symbols"),
  maxEdits: z
    .int()
    .min(0)
    .max(16)
    .default(0)
    .describe("number of notes that may be changed, added or left out, 0 to 16"),
  limit: z
    .int()
    .min(1)
    .max(5000)
    .default(100)
    .describe("greatest number of hits that are answered, 1 to 5000"),
});

/** A search in takes. */
export const searchBody = patternFields.extend({
  take: z.string().max(100).optional().describe("id of the one take that is searched"),
  player: z.string().max(100).optional().describe("id of the player whose takes are searched"),
});

const pitches = z.array(z.int());

const hitSchema = z
  .object({
    take: z.string().describe("id of the take"),
    firstNote: z.string().describe("id of its first note"),
    lastNote: z.string().describe("id of its last note"),
    notes: z.int().describe("number of its notes"),
    chorus: z.int().describe("chorus in which it begins, number from 1"),
    bar: z.int().describe("bar of the chart in which it begins, number from 1"),
    beat: z
      .number()
      .nullable()
      .describe("beat of the bar in the meter's own unit, 1 the first; null in rubato"),
    edits: z.int().describe("number of notes that are changed, added or left out"),
    pitch: z.int().describe("its first note, MIDI number"),
    before: pitches.describe("the notes before it, MIDI numbers"),
    pitches: pitches.describe("its own notes, MIDI numbers"),
    after: pitches.describe("the notes after it, MIDI numbers"),
    ids: z.array(z.string()).describe("ids of all these notes, from the first before to the last after"),
    spellings: z.array(z.string()).describe("their names in the account"),
    onsets: z.array(z.number()).describe("their onsets, in seconds from the first note of the hit"),
  })
  .meta({ id: "Hit", description: "one place at which a pattern is played" });

export const foundSchema = z
  .object({
    found: z.int().describe("number of hits in all"),
    hits: z.array(hitSchema).describe("the hits, the closest first"),
    titles: titlesField,
    pattern: patternSchema.describe("the pattern as it was read"),
  })
  .meta({ id: "Found", description: "where a pattern is played" });

export type Pattern = Frozen<z.output<typeof patternSchema>>;
export type Question = Frozen<z.input<typeof searchBody>>;
export type Hit = Frozen<z.output<typeof hitSchema>>;
/** A note that was played or picked. */
export type AskedNote = Frozen<z.input<typeof patternNote>>;
export type Found = Frozen<z.output<typeof foundSchema>>;
