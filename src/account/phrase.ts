/** Phrases and stepwise runs. */
import { z } from "zod";
import { type Frozen, noteId, share } from "./shared.ts";

export const phraseSchema = z.object({
  id: z.string(),
  firstNote: noteId,
  lastNote: noteId,
  notes: z.int(),
  chorus: z.int(),
  bar: z.int(),
  beat: z.number().nullable(),
  /** Length in bars of the chart; null in rubato. */
  bars: z.number().nullable(),
  seconds: z.number(),
  /** Silence after it, in seconds and quarter-note beats. */
  restSeconds: z.number(),
  restBeats: z.number().nullable(),
  low: z.int(),
  high: z.int(),
  shape: z.enum(["arch", "valley", "rising", "falling", "level", "wave"]),
  /** Id of the phrase that this one answers, or null. */
  answers: z.string().nullable(),
  /** 0 to 1: how clear the boundary after it is. */
  boundary: share,
  /** Added: what ends it: a rest, a held note, a change of pace or register, or the end of the solo. */
  ends: z.enum(["rest", "long note", "change", "end"]),
});

export const runSchema = z.object({
  firstNote: noteId,
  lastNote: noteId,
  direction: z.enum(["up", "down"]),
  length: z.int(),
  /** Added: where it starts. */
  chorus: z.int(),
  bar: z.int(),
  beat: z.number().nullable(),
  /** Added: the leap of three or more semitones right after it, up +, down -; null when no leap follows. */
  leap: z.int().nullable(),
});

export type AccountPhrase = Frozen<z.infer<typeof phraseSchema>>;
export type AccountRun = Frozen<z.infer<typeof runSchema>>;
