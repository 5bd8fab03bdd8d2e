/** What a player's page holds: the usual, consent, what they work on since when, notes for the parents. */
import { z } from "zod";
import { type Frozen, lensSchema } from "../../src/account.ts";
import { progressSchema } from "../../src/compare/index.ts";
import { LENS_UNITS } from "../../src/lens/names.ts";
import { dateField, idParams } from "./fields.ts";
import { playerSchema } from "./library.ts";

const id = z.string().describe("its id");
const day = z.string().describe("the day, written 2026-03-01");

export const usualSchema = z
  .object({
    handSize: z.enum(["small", "middle", "large"]).optional().describe("how large the player's hand is"),
    chart: z.string().max(20_000).optional().describe("text of the chart that is usually played"),
    shapes: z.array(z.string().max(60)).max(40).optional().describe("names of the shapes in use"),
  })
  .meta({ id: "Usual", description: "defaults for the player's next take" });

const consentSchema = z
  .object({
    date: dateField.describe("the day on which it was given, written 2026-03-01"),
    by: z.string().trim().min(1).max(200).describe("who gave it"),
  })
  .meta({ id: "Consent", description: "on which day who consented" });

export const playerPageSchema = z
  .object({
    id,
    name: z.string().describe("name of the player"),
    note: z.string().describe("what the teacher notes about the player"),
    usual: usualSchema.describe("defaults for the next take"),
    consent: consentSchema.nullable().describe("the consent of the parents; null where there is none yet"),
    lenses: z
      .array(
        z.object({
          since: day.describe("the day from which on it holds, written 2026-03-01"),
          lens: lensSchema.nullable().describe("what is worked on; null for a time without a lens"),
        }),
      )
      .describe("what the player works on from a day on, in the order of the days"),
    notes: z
      .array(z.object({ id, date: day, text: z.string().describe("the note") }))
      .describe("notes for the parents, the newest first"),
  })
  .meta({ id: "PlayerPage", description: "what a teacher holds on a player beside the takes" });

export const playerPageChange = z.object({
  usual: usualSchema.optional().describe("defaults for the next take"),
  consent: consentSchema.nullable().optional().describe("the consent of the parents; null takes it back"),
});

export const lensOfDay = z.object({
  lens: z.string().max(100).nullable().describe("id of a lens, built in or your own; null for none"),
  since: dateField.describe("the day from which on it holds, written 2026-03-01"),
});

export const newNote = z.object({
  date: dateField.describe("the day, written 2026-03-01"),
  text: z.string().trim().min(1).max(4000).describe("the note"),
});

export const noteParams = idParams.extend({ note: z.string().max(100).describe("id of the note") });

export const mergeInto = z.object({
  into: z.string().min(1).max(100).describe("id of the player who stays"),
});

const inUnit = "in its unit; a share from 0 to 1";

export const lensMeasuresSchema = z
  .object({
    measures: z
      .array(
        z
          .object({
            id,
            name: z.string().describe("what is counted, as a line of a list"),
            unit: z.enum(Object.keys(LENS_UNITS) as [keyof typeof LENS_UNITS]).describe("unit of its bounds"),
            among: z
              .string()
              .nullable()
              .describe("what it counts among, where it is a share; null for the rest"),
            asks: z.enum(["least", "most"]).describe("which way a teacher usually asks"),
            usual: z.number().describe(`a bound to begin with, ${inUnit}`),
            farthest: z.number().describe(`the farthest bound that makes sense, ${inUnit}`),
            harmony: z.boolean().describe("true where it is read against the chart"),
            chance: z
              .enum(["pitches drawn", "pitches shuffled", "moved in time", "closed form", "fact"])
              .describe("the chance that it must do better than to count as reached"),
            hand: z.boolean().describe("true where a draw of chance works the hand out anew"),
          })
          .meta({ id: "LensMeasure", description: "a number of the account that a lens may ask for" }),
      )
      .describe("the numbers that a lens may ask for"),
    lenses: z.array(lensSchema).describe("the built-in lenses"),
  })
  .meta({ id: "LensMeasures", description: "what lenses are made of, and those that are built in" });

export const playerProgressSchema = progressSchema
  .extend({ player: playerSchema.describe("the player") })
  .meta({ id: "PlayerProgress", description: "a player and their takes over time" });

export type PlayerProgress = Frozen<z.output<typeof playerProgressSchema>>;
export type Usual = Frozen<z.output<typeof usualSchema>>;
export type PlayerPage = Frozen<z.output<typeof playerPageSchema>>;
