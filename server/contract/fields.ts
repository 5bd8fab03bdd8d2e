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
