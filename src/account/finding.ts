/** What a teacher would say. */
import { z } from "zod";
import { type Frozen, noteId } from "./shared.ts";

const practiceSchema = z.object({
  title: z.string(),
  text: z.string(),
  kind: z.string(),
});

export const FINDING_HEADINGS = [
  "time and feel",
  "harmonic awareness",
  "melodic and motivic development",
  "phrasing and shape",
  "range",
  "keyboard technique",
] as const;

export const findingSchema = z.object({
  id: z.string(),
  heading: z.enum(FINDING_HEADINGS),
  kind: z.enum(["works", "practise", "notice"]),
  weight: z.number(),
  text: z.string(),
  evidence: z.array(noteId),
  bars: z.array(z.object({ chorus: z.int(), bar: z.int() })),
  practice: practiceSchema.nullable(),
  /** What was measured, in the unit of the rule's measure; left out where there is no one number. */
  observed: z.number().optional(),
  /** What chance made from the take itself gives; left out for facts, and for ideas, which passed a test of their own. */
  chance: z
    .object({
      /** Which chance: pitches drawn from the range, pitches in another order, or gaps in another order. */
      null: z.enum(["pitches drawn", "pitches shuffled", "moved in time"]),
      /** The measure among the draws, and bounds of 95 % of them; null where the rule says nothing of most draws. */
      median: z.number().nullable(),
      low: z.number().nullable(),
      high: z.number().nullable(),
      draws: z.int(),
      /** Share of draws that do as well, and the same with the take's other findings taken into account. */
      p: z.number(),
      q: z.number(),
    })
    .optional(),
});

/** A finding that applies and is not said. */
export const withheldSchema = z.object({
  /** Id of its rule. */
  rule: z.string(),
  /** "chance": chance does as well; "chart": until the chart is confirmed; "contradicts": a heavier one says otherwise. */
  why: z.enum(["chance", "chart", "contradicts"]),
});

export type Withheld = Frozen<z.infer<typeof withheldSchema>>;

export type Finding = Frozen<z.infer<typeof findingSchema>>;
export type FindingHeading = (typeof FINDING_HEADINGS)[number];
