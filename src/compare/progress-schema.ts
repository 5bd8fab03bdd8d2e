/** What is told of a player's takes over time: pure data, to be drawn, printed or sent. */
import { z } from "zod";
import { FINDING_HEADINGS, type Frozen, lensOutcomeSchema } from "../account.ts";
import { changeSchema, trendSchema } from "./comparison-schema.ts";

const take = z.string().describe("id of the take");
const date = z.string().describe("day on which it was played, written 2026-03-01");

const pointSchema = z.object({
  take,
  date,
  value: z
    .number()
    .nullable()
    .describe("value in this take, in the unit of the measure (`unit`); null where it has none"),
});

const lensProgressSchema = z
  .object({
    lens: z.string().describe("id of the lens of the newest take that has one"),
    name: z.string().describe("its name"),
    sentences: z
      .array(z.string())
      .describe(
        "one for each number that it asks for, over the takes on one chart that were looked at through it",
      ),
  })
  .meta({ id: "LensProgress", description: "a player's weeks through their lens" });

export const progressSchema = z
  .object({
    takes: z
      .array(
        z.object({
          id: take,
          date,
          title: z.string().describe("its title"),
          notes: z.int().describe("number of solo notes"),
          chart: z
            .object({
              name: z.string().nullable().describe("name of its chart; null for none"),
              key: z.string().describe('key of its chart: "F", "Gm"'),
              same: z.boolean().describe("true for the chart that changes are told of"),
            })
            .describe("what it was played on"),
          lens: lensOutcomeSchema
            .nullable()
            .describe("what the take shows through its lens; null where it has none"),
        }),
      )
      .describe("the takes, in time order"),
    measures: z
      .array(
        z.object({
          id: z.string().describe("id of the measure"),
          name: z.string().describe("its name in words"),
          unit: z
            .enum(["share", "notes a bar", "semitones", "ratio", "count"])
            .describe("unit of its numbers"),
          hope: z
            .enum(["up", "down"])
            .nullable()
            .describe("which way a teacher hopes it goes; null where neither is better"),
          points: z.array(pointSchema).describe("its value in each take"),
          trend: trendSchema.nullable().describe("how it moves; null for fewer than three takes"),
          change: changeSchema.describe("what may be said of it, over the takes on one chart"),
          words: z.string().describe('the same in a few words: "clearly more, as hoped"'),
          sentence: z.string().describe("the same in one sentence"),
        }),
      )
      .describe("the few numbers that a teacher follows"),
    lens: lensProgressSchema
      .nullable()
      .describe("the weeks of the lens in force; null where no take has one"),
    findings: z
      .array(
        z.object({
          id: z.string().describe("id of its rule"),
          heading: z.enum(FINDING_HEADINGS).describe("what it is about"),
          kind: z.enum(["works", "practise", "notice"]).describe("praise, something to practise, or a fact"),
          takes: z.array(z.string()).describe("ids of the takes in which it was made"),
          state: z
            .enum(["new", "lasting", "gone"])
            .describe("whether it is in the last take, and was before"),
          text: z.string().describe("its words in the last of them"),
        }),
      )
      .describe("every finding that was made"),
    goals: z
      .array(
        z.object({
          take,
          text: z.string().describe("the goal in the teacher's words"),
          state: z.enum(["reached", "open", "to be judged"]).describe("whether it was reached"),
        }),
      )
      .describe("goals of each take"),
    best: z
      .array(
        z.object({
          take,
          finding: z.string().describe("id of the finding"),
          text: z.string().describe("the finding in words"),
          evidence: z.array(z.string()).describe("ids of the notes by which it can be heard"),
        }),
      )
      .describe("for each take the heaviest thing that works"),
  })
  .meta({ id: "Progress", description: "a player's takes over time" });

export type Progress = Frozen<z.output<typeof progressSchema>>;
export type LensProgress = Frozen<z.output<typeof lensProgressSchema>>;
