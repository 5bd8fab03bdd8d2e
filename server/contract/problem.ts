/** A refusal, as `application/problem+json` (RFC 9457). */
import { z } from "zod";
import type { Frozen } from "../../src/account.ts";
import { feedbackSchema } from "./feedback.ts";

export const problemSchema = z
  .object({
    type: z.string().describe('"about:blank": the code says which problem it is'),
    title: z.string().describe("what is wrong, in one sentence"),
    status: z.int().describe("HTTP status, a number from 400"),
    code: z.string().describe("stable name for programs, one of those listed in the reference"),
    detail: z.string().describe("what is wrong, in one sentence"),
    where: z
      .string()
      .nullable()
      .describe("the place in the request or the file that it is about; null when it is about all of it"),
    todo: z.string().describe("what to do about it"),
    stands: feedbackSchema
      .optional()
      .describe("what was kept meanwhile, in full, where a change was made to something older"),
  })
  .meta({ id: "Problem", description: "what is wrong, where, and what to do (RFC 9457)" });

/** A refusal inside an answer that has begun. */
export const refusedSchema = z
  .object({
    code: z.string().describe("stable name for programs, one of those listed in the reference"),
    message: z.string().describe("what is wrong, in one sentence"),
    where: z.string().nullable().describe("the place that it is about; null when it is about all of it"),
    todo: z.string().describe("what to do about it"),
  })
  .meta({ id: "Refused", description: "what is wrong, inside an answer that has begun" });

export type ProblemBody = Frozen<z.output<typeof problemSchema>>;
