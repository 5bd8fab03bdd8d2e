/** What teacher and student add to the findings of a take. */
import { z } from "zod";
import { FINDING_HEADINGS, type Frozen } from "../account.ts";

/** More often than anybody changes a page. */
const MOST_KEPT = 1_000_000;

const text = z.string().max(4000);

const addedFindingSchema = z.object({
  kind: z
    .enum(["works", "practise", "notice"])
    .describe("whether it is praise, something to practise, or a fact"),
  heading: z
    .enum(FINDING_HEADINGS)
    .optional()
    .describe("what it is about; left out for nothing in particular"),
  text: text.describe("the finding in the teacher's words"),
});

export const feedbackSchema = z
  .object({
    hidden: z
      .array(z.string().max(100))
      .max(200)
      .default([])
      .describe("ids of findings that are not to be shown"),
    edited: z
      .record(z.string().max(100), text)
      .default({})
      .describe("the teacher's wording by id of the finding"),
    added: z.array(addedFindingSchema).max(50).default([]).describe("findings of the teacher's own"),
    signed: z.string().max(200).default("").describe("name under which it is handed out; empty for none"),
    own: text.default("").describe("the student's own evaluation"),
    askFirst: z
      .boolean()
      .default(false)
      .describe("true shows the findings only after the student has written"),
    asked: z.boolean().default(false).describe("true once the student has written"),
    version: z
      .int()
      .min(0)
      .max(MOST_KEPT)
      .optional()
      .describe(
        "number of times that it was kept; sent with a change, it is refused where somebody kept another meanwhile, and left out it overwrites; left out of what nothing keeps",
      ),
  })
  .meta({ id: "Feedback", description: "what teacher and student have added to the findings of a take" });

export type Feedback = Frozen<z.output<typeof feedbackSchema>>;
