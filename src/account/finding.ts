/** What a teacher would say. */
import { z } from "zod";
import { barField, chorusField, type Frozen, noteId } from "./shared.ts";

const practiceSchema = z
  .object({
    title: z.string().describe("title of the exercise"),
    text: z.string().describe("how it is practised"),
    kind: z.string().describe("kind of exercise, which the practice sheet writes out"),
  })
  .meta({ id: "Practice", description: "the exercise that a finding leads to" });

export const FINDING_HEADINGS = [
  "time and feel",
  "harmonic awareness",
  "melodic and motivic development",
  "phrasing and shape",
  "range",
  "keyboard technique",
] as const;

const chanceSchema = z
  .object({
    null: z
      .enum(["pitches drawn", "pitches shuffled", "moved in time"])
      .describe("which chance: pitches drawn from the range, in another order, or gaps in another order"),
    median: z
      .number()
      .nullable()
      .describe(
        "median of the measure among the draws, in its unit; null where the rule says nothing of most",
      ),
    low: z
      .number()
      .nullable()
      .describe("lower bound of 95 % of the draws, in the measure's unit; null as above"),
    high: z
      .number()
      .nullable()
      .describe("upper bound of 95 % of the draws, in the measure's unit; null as above"),
    draws: z.int().describe("number of draws"),
    p: z.number().describe("share of draws that do as well, 0 to 1"),
    q: z.number().describe("the same with the other findings of the take taken into account, 0 to 1"),
  })
  .meta({ id: "Chance", description: "what chance made from the take itself gives" });

/** What a finding is counted in. */
export const FINDING_UNITS = [
  "share",
  "times",
  "notes",
  "for each hundred notes",
  "notes a bar",
  "semitones",
  "choruses",
  "phrases",
  "outlines",
  "note lengths",
  "ratio",
  "seconds",
  "milliseconds",
  "percent a minute",
  "chords",
  "beats",
] as const;

export type FindingUnit = (typeof FINDING_UNITS)[number];

export const findingSchema = z
  .object({
    id: z.string().describe("id of its rule, listed in the reference"),
    heading: z.enum(FINDING_HEADINGS).describe("what it is about"),
    kind: z
      .enum(["works", "practise", "notice"])
      .describe("whether it is praise, something to practise, or a fact worth knowing"),
    weight: z.number().describe("rank number without a unit, above 0: the greater, the sooner it is said"),
    text: z.string().describe("the finding in words"),
    evidence: z.array(noteId).describe("ids of the notes by which it can be heard, in order"),
    bars: z.array(z.object({ chorus: chorusField, bar: barField })).describe("bars in which it can be heard"),
    practice: practiceSchema.nullable().describe("what to practise; null where nothing follows"),
    measure: z.string().optional().describe("what is counted in the take; left out for goals"),
    unit: z.enum(FINDING_UNITS).optional().describe("what it is counted in; left out for goals"),
    basis: z
      .enum(["fact", "idea", "chance"])
      .optional()
      .describe(
        '"fact": it is so, and no chance is asked; "idea": returns more often than chance, by the test that found it; "chance": weighed against draws of chance',
      ),
    observed: z
      .number()
      .optional()
      .describe("how much of it was counted, in its unit; left out where there is no one number"),
    chance: chanceSchema
      .optional()
      .describe(
        "what it was weighed against; left out of facts, and of ideas, which passed a test of their own",
      ),
  })
  .meta({ id: "Finding", description: "something that a teacher would say of the take" });

export const withheldSchema = z
  .object({
    rule: z.string().describe("id of its rule, listed in the reference"),
    why: z
      .enum(["chance", "chart", "contradicts", "place", "repeats", "unsure"])
      .describe(
        '"chance" does as well; "chart": until it is confirmed; "contradicts": a heavier one says otherwise; "place": of harmony and time, until the bars are surer than .8 or each is pinned; "repeats": a heavier one says it already; "unsure": it rests on notes that were not heard surely',
      ),
  })
  .meta({ id: "Withheld", description: "a finding that applies and is not said" });

export type Withheld = Frozen<z.infer<typeof withheldSchema>>;

export type Finding = Frozen<z.infer<typeof findingSchema>>;
export type FindingHeading = (typeof FINDING_HEADINGS)[number];
