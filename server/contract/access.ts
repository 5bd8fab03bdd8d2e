/** Links to a take, tokens and sessions: who may read what. */
import { z } from "zod";
import type { Frozen } from "../../src/account.ts";
import { daysField, timeField } from "./fields.ts";

export const ROLES = ["owner", "teacher", "reader", "researcher", "monitor", "student"] as const;

const role = z.enum(ROLES);
const until = timeField.nullable().describe("when it ends, or has ended, by itself, in UTC; null for never");

const shareSchema = z
  .object({
    id: z.string().describe("id of the link"),
    name: z.string().describe("for whom it was made"),
    createdAt: timeField.describe("when it was made, in UTC"),
    expiresAt: until,
  })
  .meta({ id: "Share", description: "a read-only link to a take, without the address that opens it" });

export const sharesSchema = z
  .object({ shares: z.array(shareSchema).describe("links that are in force") })
  .meta({ id: "Shares", description: "links to a take" });

export const newShare = z.object({
  name: z.string().trim().min(1).max(200).default("Link").describe("for whom it is"),
  days: daysField,
});

export const madeShareSchema = z
  .object({
    id: z.string().describe("id of the link, by which it is ended"),
    path: z.string().describe("its address on this service, told this once"),
  })
  .meta({ id: "MadeShare", description: "a link that was made" });

const mostTakes = z.int().min(0).max(1_000_000).nullable();
const mostMb = z.number().min(0).max(1_000_000).nullable();

export const tokenSchema = z
  .object({
    id: z.string().describe("id of the token, by which it is ended"),
    name: z.string().describe("for whom it was made"),
    role: role.describe("what it opens"),
    scope: z
      .array(z.string())
      .describe("ids of players (teacher; student, who is the one), takes (reader) or corpora (researcher)"),
    reaches: z
      .array(
        z.object({
          id: z.string().describe("id from the scope"),
          name: z
            .string()
            .nullable()
            .describe(
              "name of that player or corpus, or title of that take, as it is now; null where it is gone",
            ),
        }),
      )
      .describe("the scope with its names; empty for an owner, who reaches all, and a monitor"),
    createdAt: timeField.describe("when it was made, in UTC"),
    endedAt: timeField.nullable().describe("when it was ended, in UTC; null while it is not"),
    expiresAt: until,
    mostTakes: mostTakes.describe(
      "most takes that it may keep, number from 0; null for what the settings say",
    ),
    mostMb: mostMb.describe("most megabytes that it may keep, number from 0; null for what the settings say"),
    takes: z.int().describe("number of takes that it keeps, those that wait to be analysed too"),
    megabytes: z
      .number()
      .describe("megabytes of their files and recordings, of a million bytes each, from 0"),
  })
  .meta({ id: "Token", description: "a token, without what it opens with" });

export const tokensSchema = z
  .object({ tokens: z.array(tokenSchema).describe("all tokens, ended ones too") })
  .meta({ id: "Tokens", description: "all tokens" });

const reachSchema = z
  .object({
    id: z.string().describe("id of the token"),
    name: z.string().describe("for whom it was made"),
    role: role.describe(
      "owner: everything; teacher: the player's page, takes and lessons, and changes them; student: the player's own page behind a link; reader: takes behind a link; researcher: takes in corpora",
    ),
    takes: z.int().describe("number of the player's takes that it opens, from 0"),
    createdAt: timeField.describe("when it was made, in UTC"),
    expiresAt: until,
  })
  .meta({ id: "Reach", description: "a token that opens something of a player" });

export const reachesSchema = z
  .object({
    takes: z.int().describe("number of takes that are kept of the player, from 0"),
    tokens: z.array(reachSchema).describe("tokens and links in force that open something of the player"),
  })
  .meta({ id: "Reaches", description: "who may see what of a player" });

export const newToken = z.object({
  name: z.string().trim().min(1).max(200).describe("for whom it is"),
  role: role.describe("what it opens"),
  scope: z
    .array(z.string().max(100))
    .max(1000)
    .default([])
    .describe(
      "ids of players (teacher; student, who is the one), takes (reader) or corpora (researcher); empty for an owner or a monitor",
    ),
  mostTakes: mostTakes
    .default(null)
    .describe("most takes that it may keep, number from 0; null for what the settings say"),
  mostMb: mostMb
    .default(null)
    .describe("most megabytes that it may keep, number from 0; null for what the settings say"),
  days: daysField,
});

export const tokenChange = z
  .object({
    scope: newToken.shape.scope
      .removeDefault()
      .optional()
      .describe(
        "ids of what it reaches from now on: players, takes or corpora by its role; left out, as before",
      ),
    mostTakes: mostTakes
      .optional()
      .describe("most takes that it may keep from now on, number from 0; null for what the settings say"),
    mostMb: mostMb
      .optional()
      .describe("most megabytes that it may keep from now on, number from 0; null for what the settings say"),
  })
  .refine((change) => Object.values(change).some((value) => value !== undefined), "nothing is to be changed");

export const endedHow = z.object({
  forget: z
    .enum(["true", "false"])
    .default("false")
    .describe("true also removes its name from the store, with the token; the audit keeps its id"),
});

export const madeTokenSchema = z
  .object({
    id: z.string().describe("id of the token, by which it is ended"),
    token: z.string().describe("the token itself, told this once"),
  })
  .meta({ id: "MadeToken", description: "a token that was made" });

export const signIn = z.object({ token: z.string().max(200).describe("the token to sign in with") });

export type TokenRow = Frozen<z.output<typeof tokenSchema>>;
export type MadeToken = Frozen<z.output<typeof madeTokenSchema>>;
export type Reaches = Frozen<z.output<typeof reachesSchema>>;
export type ShareRow = Frozen<z.output<typeof shareSchema>>;
export type MadeShare = Frozen<z.output<typeof madeShareSchema>>;
