/** What each chorus comes to, and the register. */
import { z } from "zod";
import { swingSchema } from "./rhythm.ts";
import { chorusField, type Frozen, share, shares } from "./shared.ts";

export const registerSchema = z
  .object({
    low: z.int().nullable().describe("lowest note, MIDI number; null without notes"),
    high: z.int().nullable().describe("highest note, MIDI number; null without notes"),
    quantiles: z
      .array(z.number())
      .describe(
        "pitches below which 10, 25, 50, 75 and 90 % of the notes lie, MIDI numbers; empty without notes",
      ),
    histogram: z
      .array(
        z.object({
          pitch: z.int().describe("MIDI number"),
          notes: z.int().describe("number of notes of this pitch"),
        }),
      )
      .describe("how often each pitch was played, rising"),
  })
  .meta({ id: "Register", description: "which part of the keyboard the solo uses" });

export const chorusSchema = z
  .object({
    chorus: chorusField,
    notes: z.int().describe("number of solo notes"),
    roles: shares.describe("share of the solo notes by harmonic role, each 0 to 1, together 1"),
    lineRoles: shares.describe("share of the solo notes by line role, each 0 to 1, together 1"),
    degrees: shares.describe("share of the solo notes by degree against the chord, each 0 to 1, together 1"),
    register: registerSchema.describe("the pitches of this chorus"),
    density: z
      .object({
        perBar: z.number().describe("solo notes a bar"),
        perSecond: z.number().describe("solo notes a second"),
      })
      .describe("how dense the line is"),
    swing: swingSchema.nullable().describe("how eighths are divided; null where too few beats tell"),
    placements: z.array(z.string()).describe("ids of the placements that begin in this chorus"),
    placementShare: share.describe("share of the solo notes that lie in a placement, 0 to 1"),
    motifs: z.array(z.string()).describe("ids of the ideas that are heard in it"),
    runShare: share.describe("share of the solo notes in stepwise runs, 0 to 1"),
    rests: share.describe("share of the time of the chorus in which the solo rests, 0 to 1"),
    phrases: z.int().describe("number of phrases that begin in it"),
  })
  .meta({ id: "Chorus", description: "what one chorus comes to" });

export type ChorusSummary = Frozen<z.infer<typeof chorusSchema>>;
export type RegisterSummary = Frozen<z.infer<typeof registerSchema>>;
