/** A take: a file that was kept, with what lists and pages show of it. */
import { z } from "zod";
import {
  analysisSchema,
  correctionsSchema,
  type Frozen,
  noteSchema,
  optionsSchema,
} from "../../src/account.ts";
import { chartFields, dateField, formFields, timeField } from "./fields.ts";

export const takeSchema = z
  .object({
    id: z.string().describe("id of the take"),
    title: z.string().describe("its title"),
    player: z.string().nullable().describe("name of its player; null for none"),
    playerId: z.string().nullable().describe("id of its player; null for none"),
    date: z
      .string()
      .nullable()
      .describe("day on which it was played, written 2026-03-01; null when not known"),
    fileName: z.string().describe("name of the file as it came"),
    tags: z.array(z.string()).describe("words by which takes are grouped"),
    demo: z.boolean().describe("true for the takes of the demo class"),
    chartName: z.string().nullable().describe("name of its chart; null for none"),
    key: z.string().describe('key of its chart: "F", "Gm"'),
    choruses: z.int().describe("number of choruses"),
    notes: z.int().describe("number of solo notes"),
    method: z.string().describe("how its bars were found, as in the account's alignment"),
    confidence: z.number().describe("how likely a bar is where it is said to be, 0 to 1"),
    tempo: z.number().nullable().describe("median tempo, in quarter notes a minute; null in rubato"),
    seconds: z.number().describe("length in seconds"),
    createdAt: timeField.describe("when it was kept, in UTC: 2026-03-01T18:30:00Z"),
    sound: z.boolean().describe("true where the recording that its notes were heard in was kept"),
  })
  .meta({ id: "Take", description: "a file that was kept, as lists and pages show it" });

export const takesSchema = z
  .object({
    takes: z.array(takeSchema).describe("the takes of this page, in the order asked for"),
    total: z.int().describe("number of takes on all pages together"),
    next: z
      .string()
      .nullable()
      .describe("what the next page is asked for with `after`; null on the last page"),
  })
  .meta({ id: "Takes", description: "takes within reach, or a page of them" });

export const takeWithAnalysis = z
  .object({ take: takeSchema.describe("the take"), analysis: analysisSchema.describe("its account") })
  .meta({ id: "TakeWithAccount", description: "a take and its account" });

export const takeNotesSchema = z
  .object({ notes: z.array(noteSchema).describe("every note, in order of onset, then pitch") })
  .meta({ id: "TakeNotes", description: "the notes of a take" });

export const takeForm = formFields.extend({
  player: z.string().trim().max(200).optional().describe("name of the player; made when new"),
  playerId: z.string().max(100).optional().describe("id of a player that there is, in place of a name"),
  title: z.string().trim().max(200).optional().describe("its title; the name of the file when left out"),
  date: z
    .union([z.literal(""), dateField])
    .optional()
    .describe("day on which it was played, written 2026-03-01; empty when not known"),
  tags: z.string().max(1000).optional().describe("words by which takes are grouped, separated by commas"),
  keepSound: z
    .enum(["true", "false"])
    .default("false")
    .describe("true keeps a recording beside the notes heard in it"),
});

export const takeQuery = z.object({
  player: z.string().max(100).optional().describe("id of a player"),
  tag: z.string().max(100).optional().describe("a tag that they have"),
  q: z
    .string()
    .max(200)
    .optional()
    .describe(
      "words, each of which stands in the player's name, the title, the chart's name, its key, the date or a tag",
    ),
  source: z
    .string()
    .regex(/^[0-9a-f]{64}$/, "a hash is 64 digits from 0 to f")
    .optional()
    .describe("SHA-256 of the file that they were analysed from, in hexadecimal digits"),
  demo: z.enum(["true", "false"]).optional().describe("true for the demo class alone, false without it"),
  sort: z
    .enum(["newest", "oldest", "title", "player"])
    .default("newest")
    .describe("by the day on which they were played (undated ones last), by title, or by player"),
  after: z.string().min(1).max(100).optional().describe("where the page goes on: `next` of the page before"),
  limit: z.coerce
    .number()
    .int()
    .min(1)
    .max(500)
    .optional()
    .describe("most takes of a page, 1 to 500; all takes when left out"),
});

export const takeChange = chartFields.extend({
  anchors: z.array(z.unknown()).max(10_000).optional(),
  options: z.record(z.string(), z.unknown()).optional(),
  correct: correctionsSchema.optional(),
  title: z.string().trim().min(1).max(200).optional().describe("its title"),
  player: z.string().trim().max(200).nullable().optional().describe("name of its player; null for none"),
  date: dateField
    .nullable()
    .optional()
    .describe("day on which it was played, written 2026-03-01; null for none"),
  tags: z.array(z.string().max(60)).max(40).optional().describe("words by which takes are grouped"),
});

/** The same as it is published; pins and options are checked like those of a new take, so that a mistake is told by the option that it is in. */
export const sentTakeChange = takeChange.extend({
  anchors: optionsSchema.shape.anchors
    .unwrap()
    .optional()
    .describe("moments pinned to the chart, as in the account's alignment; they replace all earlier ones"),
  options: optionsSchema.optional().describe("options to be changed; those that are left out stay"),
});

export type TakePage = Frozen<z.output<typeof takesSchema>>;
export type TakeRow = Frozen<z.output<typeof takeSchema>>;
export type TakeWithAccount = Frozen<z.output<typeof takeWithAnalysis>>;
export type TakeChange = Frozen<z.input<typeof sentTakeChange>>;
