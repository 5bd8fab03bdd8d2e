/** Which takes of a corpus are meant. One filter serves summaries, tables, searches and comparisons. */
import { z } from "zod";
import { dateField } from "./fields.ts";

/** Quarter notes a minute; faster none are told apart. */
const FASTEST = 10_000;

export const filterFields = z.object({
  player: z.string().max(200).optional().describe("name of the player"),
  tag: z.string().max(100).optional().describe("a tag that they have"),
  key: z.string().max(20).optional().describe('key of the chart: "F", "Gm"'),
  chart: z.string().max(200).optional().describe("name of the chart"),
  method: z.string().max(20).optional().describe("how their bars were found, as in the account's alignment"),
  from: dateField.optional().describe("played on this day or later"),
  to: dateField.optional().describe("played on this day or earlier"),
  slowest: z.coerce
    .number()
    .min(0)
    .max(FASTEST)
    .optional()
    .describe("least median tempo, in quarter notes a minute"),
  fastest: z.coerce
    .number()
    .min(0)
    .max(FASTEST)
    .optional()
    .describe("greatest median tempo, in quarter notes a minute"),
});

export type Filter = z.infer<typeof filterFields>;
