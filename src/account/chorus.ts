/** What each chorus comes to, and the register. */
import { z } from "zod";
import { swingSchema } from "./rhythm.ts";
import { type Frozen, share, shares } from "./shared.ts";

export const registerSchema = z.object({
  low: z.int().nullable(),
  high: z.int().nullable(),
  /** 10, 25, 50, 75 and 90 %, MIDI numbers. */
  quantiles: z.array(z.number()),
  histogram: z.array(z.object({ pitch: z.int(), notes: z.int() })),
});

export const chorusSchema = z.object({
  chorus: z.int(),
  notes: z.int(),
  roles: shares,
  lineRoles: shares,
  degrees: shares,
  register: registerSchema,
  /** Notes a bar and notes a second. */
  density: z.object({ perBar: z.number(), perSecond: z.number() }),
  swing: swingSchema.nullable(),
  placements: z.array(z.string()),
  placementShare: share,
  motifs: z.array(z.string()),
  /** Share of notes in stepwise runs. */
  runShare: share,
  /** Share of the chorus's time in which the solo rests. */
  rests: share,
  phrases: z.int(),
});

export type ChorusSummary = Frozen<z.infer<typeof chorusSchema>>;
export type RegisterSummary = Frozen<z.infer<typeof registerSchema>>;
