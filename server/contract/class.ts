/** The class: what a teacher looks at first of each player. */
import { z } from "zod";
import { type Frozen, lensOutcomeSchema } from "../../src/account.ts";

const day = z.string().describe("the day, written 2026-03-01");

const state = lensOutcomeSchema.shape.state.nullable();

const classPlayerSchema = z
  .object({
    id: z.string().describe("id of the player"),
    name: z.string().describe("name of the player"),
    takes: z.int().describe("number of takes"),
    demo: z.boolean().describe("true where all takes are of the demo class, and there are some"),
    lens: z
      .object({
        name: z.string().describe("its name"),
        since: day,
        takes: z.int().describe("number of takes played on that day or later"),
        now: state.describe("how far the newest take that was seen through it reaches it; null for none"),
        before: state.describe("how far the take before that reached it; null for none"),
      })
      .nullable()
      .describe("what the player works on today; null for none"),
    last: z
      .object({
        id: z.string().describe("id of the take"),
        title: z.string().describe("its title"),
        date: day.describe("the day on which it was played or, where that is not known, kept"),
      })
      .nullable()
      .describe("the newest take; null for none"),
    waiting: z.int().describe("number of lessons handed out that no take has answered yet"),
  })
  .meta({ id: "ClassPlayer", description: "a player, as a row of the class" });

export const classSchema = z
  .object({ players: z.array(classPlayerSchema).describe("players within reach, by name") })
  .meta({ id: "Class", description: "the players with their lens and newest take" });

export type ClassPlayer = Frozen<z.output<typeof classPlayerSchema>>;
