/** What a student sees of themselves behind a link of their own. */
import { z } from "zod";
import { type Frozen, lensSchema } from "../../src/account.ts";
import { feedbackSchema } from "./feedback.ts";
import { handedLessonsSchema } from "./lessons.ts";
import { takeSchema } from "./takes.ts";

export const studentViewSchema = z
  .object({
    player: z
      .object({
        id: z.string().describe("id of the player"),
        name: z.string().describe("name of the player"),
      })
      .describe("whose page it is"),
    lens: lensSchema
      .pick({ id: true, name: true, about: true })
      .nullable()
      .describe("what is worked on today; null for none"),
    takes: z.array(takeSchema).describe("the player's own takes that stand alone, the newest first"),
    lessons: handedLessonsSchema.shape.lessons,
  })
  .meta({ id: "StudentView", description: "a player's own page: own takes, own lessons, nothing of others" });

export const ownView = z.object({
  own: z.string().trim().min(1).max(4000).describe("the player's own evaluation of the take"),
  version: feedbackSchema.shape.version.describe(
    "version of the feedback that it was written upon; refused where somebody kept another meanwhile, and left out it overwrites",
  ),
});

export type StudentView = Frozen<z.output<typeof studentViewSchema>>;
