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
});

export type Finding = Frozen<z.infer<typeof findingSchema>>;
export type FindingHeading = (typeof FINDING_HEADINGS)[number];
