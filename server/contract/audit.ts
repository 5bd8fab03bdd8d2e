/** Who read and wrote what of persons, as an owner reads it. */
import { z } from "zod";
import type { Frozen } from "../../src/account.ts";
import { timeField } from "./fields.ts";

const action = z.enum(["read", "write"]);

const auditEntrySchema = z
  .object({
    id: z.string().describe("id of the entry"),
    at: timeField.describe("when, in UTC, to a second"),
    token: z
      .string()
      .nullable()
      .describe("id of the token that was shown; null for the owner at the machine itself"),
    tokenName: z.string().nullable().describe("for whom the token was made; null where it is gone"),
    role: z.string().describe("role of the token"),
    action: action.describe("whether something was read or written"),
    method: z.string().describe("HTTP method, in small letters"),
    route: z.string().describe("the route, with its parameters by name"),
    what: z.string().nullable().describe("what the route is for, in words; null where it is gone"),
    about: z
      .string()
      .nullable()
      .describe(
        "id of the player, take, corpus, job or token that it was about; null for a list or a refusal",
      ),
    aboutName: z
      .string()
      .nullable()
      .describe(
        "name of that player, corpus or token, or title of that take, as it is now; null where it is gone",
      ),
    status: z.int().describe("HTTP status, a number from 200"),
    times: z.int().describe("number of such requests within the same second"),
  })
  .meta({ id: "AuditEntry", description: "a request that was about persons" });

export const auditSchema = z
  .object({
    entries: z.array(auditEntrySchema).describe("entries, the newest first"),
    next: z
      .string()
      .nullable()
      .describe("what the next page is asked for with `after`; null on the last page"),
  })
  .meta({ id: "Audit", description: "who read and wrote what of persons" });

export const auditQuery = z.object({
  about: z.string().max(100).optional().describe("id of a player, take, corpus, job or token"),
  token: z.string().max(100).optional().describe("id of a token"),
  action: action.optional().describe("read or write; both when left out"),
  after: z.string().min(1).max(100).optional().describe("where the page goes on: `next` of the page before"),
  limit: z.coerce
    .number()
    .int()
    .min(1)
    .max(1000)
    .default(100)
    .describe("most entries of a page, number from 1 to 1000"),
});

export type AuditEntry = Frozen<z.output<typeof auditEntrySchema>>;
