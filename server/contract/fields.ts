/** Fields that several requests and answers have. */
import { z } from "zod";

/** How long a token or a link is in force. */
export const daysField = z
  .int()
  .min(1)
  .max(366)
  .nullable()
  .default(null)
  .describe("days until it ends by itself, 1 to 366; null for none");

/** A day of the calendar, as PostgreSQL keeps it: there is no year 0. */
export const dateField = z.iso
  .date("a date is a day of the calendar, written 2026-03-01")
  .refine((text) => !text.startsWith("0000"), "years are counted from 0001");

/**
 * Value of the header Idempotency-Key: a string of structured fields (RFC 8941, 3.3.3), as the IETF draft "The
 * Idempotency-Key HTTP Header Field" has it; without its quotes too, since many send it so.
 */
export const sentKey = z
  .string()
  .regex(
    /^("[ !#-[\]-~]{1,200}"|[\w.:~-]{1,200})$/,
    'a key is 1 to 200 characters in quotes: "8e03978e-40d5-43e8-bc93-6894a57f9324"',
  )
  .transform((text) => text.replace(/^"|"$/g, ""))
  .describe(
    "a name that the caller makes for this request, at best a UUID: sent again under it, after a lost answer, the request is answered like the first time and nothing is made twice; in force as long as what was made is kept",
  );

export const idParams = z.object({ id: z.string().min(1).max(100).describe("its id, as lists give it") });

export const chartFields = z.object({
  chart: z.string().max(20_000).optional().describe("chart text"),
  form: z.string().max(60).optional().describe("id of a built-in form, see GET /forms"),
  key: z.string().max(20).optional().describe('key of the form: "F", "Gm"'),
  chartId: z.string().max(100).optional().describe("id of a stored chart"),
});

export const formFields = chartFields.extend({
  options: z
    .string()
    .max(200_000)
    .optional()
    .describe("options as JSON text, as the part `Options` has them"),
});

/** A moment of the store. */
export const timeField = z.string().describe("moment in UTC: 2026-03-01T18:30:00Z");

/** Labels with the share that each has. */
export const sharesField = z.record(z.string(), z.number());

export const titlesField = z
  .record(z.string(), z.string())
  .describe("titles of the takes of the hits, by id");
