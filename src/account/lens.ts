/** A lens: what a teacher works on, as data, and what a take shows through it. */
import { z } from "zod";
import { LENS_MEASURES } from "../lens/names.ts";
import { barField, chorusField, type Frozen, MOST_PLACES, noteId, share } from "./shared.ts";

const measureId = z.enum(LENS_MEASURES.map(({ id }) => id));

const boundField = z.number().min(-MOST_PLACES).max(MOST_PLACES).nullable().default(null);

/** A bound on one number of the account: at least, or at most; exactly one of them is a number. */
const askSchema = z.object({
  measure: measureId.describe("number of the account that is asked for"),
  least: boundField.describe(
    "bound from below, in the measure's unit (a share from 0 to 1); null where it is bound from above",
  ),
  most: boundField.describe(
    "bound from above, in the measure's unit (a share from 0 to 1); null where it is bound from below",
  ),
  partly: z
    .number()
    .min(-MOST_PLACES)
    .max(MOST_PLACES)
    .describe("from where on it is partly reached, in the measure's unit, short of the bound"),
});

const exercisesSchema = z.array(
  z.object({
    kind: z.string().max(60).describe('kind of exercise that the practice sheet makes: "guide tones"'),
    title: z.string().trim().min(1).max(120).describe("its title on the sheet"),
    text: z.string().trim().min(1).max(500).describe("how it is played"),
  }),
);

const saidField = z.string().trim().min(1).max(300);

export const lensSchema = z
  .object({
    id: z.string().min(1).max(100).describe("id of the lens"),
    name: z.string().trim().min(1).max(80).describe("what it is called"),
    about: z.string().trim().min(1).max(500).describe("the concept, in a sentence or two, to the student"),
    asks: z
      .array(askSchema)
      .min(1)
      .max(4)
      .describe("what is asked for: the first is what the lens is about, the others go with it"),
    said: z
      .object({
        reached: saidField.describe("said when it is reached"),
        partly: saidField.describe("said when it is partly reached"),
        notYet: saidField.describe("said when it is not reached yet"),
      })
      .describe("how it is said"),
    exercises: exercisesSchema.max(4).default([]).describe("what is played for it"),
  })
  .meta({ id: "Lens", description: "what teacher and student work on, with the numbers that it asks for" });

const LENS_STATES = ["reached", "partly", "not yet", "cannot be told"] as const;

const stateField = z.enum(LENS_STATES);

const placesField = z.array(z.object({ chorus: chorusField, bar: barField }));

const weighedSchema = z.object({
  null: z
    .enum(["pitches drawn", "pitches shuffled", "moved in time"])
    .describe(
      "which chance: pitches drawn from the range, pitches in another order, or gaps in another order",
    ),
  draws: z.int().describe("number of draws; fewer once it is plain that chance often does as well"),
  median: z
    .number()
    .nullable()
    .describe("the measure among the draws, in its unit; null where most draws do not tell"),
  p: share.describe("share of draws that do as well, 0 to 1, the take itself counted"),
});

const askOutcomeSchema = z.object({
  measure: measureId.describe("number of the account that was asked for"),
  value: z
    .number()
    .nullable()
    .describe("what the take has, in the measure's unit; null where it does not tell"),
  least: z.number().nullable().describe("the bound from below, in the same unit; null for none"),
  most: z.number().nullable().describe("the bound from above, in the same unit; null for none"),
  state: stateField.describe("how far it is reached; what chance would often reach is at most partly"),
  text: z.string().describe("the number with its unit and bound, or why the take does not tell"),
  chance: weighedSchema
    .optional()
    .describe(
      "what chance made from the take gives; left out for facts, and where nothing was to be weighed",
    ),
  evidence: z.array(noteId).describe("notes by which it can be heard"),
  bars: placesField.describe("their bars"),
  open: z.array(noteId).describe("notes at which it could have been and was not, a dozen at most"),
  openBars: placesField.describe("their bars"),
});

export const lensOutcomeSchema = z
  .object({
    lens: z.string().describe("id of the lens"),
    name: z.string().describe("what it is called"),
    state: stateField.describe("how far the lens is reached"),
    text: z.string().describe("one sentence for the whole"),
    asks: z.array(askOutcomeSchema).describe("each number that was asked for, in the lens's order"),
    exercises: exercisesSchema.describe("what is played for it"),
  })
  .meta({ id: "LensOutcome", description: "what the take shows through the lens that was set" });

export type Lens = Frozen<z.infer<typeof lensSchema>>;
export type LensAsk = Lens["asks"][number];
export type LensOutcome = Frozen<z.infer<typeof lensOutcomeSchema>>;
export type LensState = (typeof LENS_STATES)[number];
