/** Phrases and stepwise runs. */
import { z } from "zod";
import { barField, beatField, chorusField, type Frozen, noteId, share } from "./shared.ts";

export const phraseSchema = z
  .object({
    id: z.string().describe('"p1", "p2", ... in order; unique in the take'),
    firstNote: noteId.describe("id of its first note"),
    lastNote: noteId.describe("id of its last note"),
    notes: z.int().describe("number of its notes"),
    chorus: chorusField,
    bar: barField,
    beat: beatField,
    bars: z.number().nullable().describe("length in bars of the chart; null in rubato"),
    seconds: z.number().describe("length in seconds"),
    restSeconds: z.number().describe("silence after it, in seconds"),
    restBeats: z.number().nullable().describe("silence after it, in quarter-note beats; null in rubato"),
    low: z.int().describe("its lowest note, MIDI number"),
    high: z.int().describe("its highest note, MIDI number"),
    shape: z
      .enum(["arch", "valley", "rising", "falling", "level", "wave"])
      .describe("the way of its line from the first to the last note"),
    answers: z.string().nullable().describe("id of the phrase that this one answers; else null"),
    boundary: share.describe("how clear the end of it is, 0 to 1"),
    ends: z
      .enum(["rest", "long note", "change", "end"])
      .describe('what ends it; "change" stands only in accounts of earlier versions'),
  })
  .meta({ id: "Phrase", description: "what is played in one breath" });

export const runSchema = z
  .object({
    firstNote: noteId.describe("id of its first note"),
    lastNote: noteId.describe("id of its last note"),
    direction: z.enum(["up", "down"]).describe("which way it goes"),
    length: z.int().describe("number of its notes"),
    chorus: chorusField,
    bar: barField,
    beat: beatField,
    leap: z
      .int()
      .nullable()
      .describe(
        "leap right after it of three semitones or more, up above 0, down below; null when none follows",
      ),
  })
  .meta({ id: "Run", description: "a stretch of notes that go by step in one direction" });

export type AccountPhrase = Frozen<z.infer<typeof phraseSchema>>;
export type AccountRun = Frozen<z.infer<typeof runSchema>>;
