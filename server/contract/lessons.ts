/** Lessons without a take: what is asked for, the sheet, and what was handed out to a player. */
import { z } from "zod";
import type { Frozen } from "../../src/account.ts";
import { LEVEL_IDS } from "../../src/practice/levels.ts";
import { FEELS } from "../../src/practice/prepared-lesson.ts";
import { chartFields, dateField, idParams, timeField } from "./fields.ts";

const inKey = z
  .string()
  .max(20)
  .optional()
  .describe('another key to which the whole lesson is moved: "Eb", "Cm"; left out for the chart\'s own');

const level = z.enum(LEVEL_IDS).default("intermediate").describe("how far the student has come");
const feel = z.enum(FEELS).default("swing").describe("how pairs of eighths are played");
const lens = z.string().max(100).optional().describe("id of a lens, built in or your own; left out for none");
const shapeName = z.string().max(60);

/** A lesson as its address asks for it. */
export const lessonQuery = chartFields.extend({
  inKey,
  level,
  feel,
  lens,
  shape: z
    .union([shapeName, z.array(shapeName).max(40)])
    .optional()
    .describe("names of hand shapes, the most important first; the first built-in one when left out"),
});

export const lessonKeyQuery = z.object({ inKey });

/** A lesson that is handed out. */
export const newLesson = chartFields.extend({
  inKey,
  level,
  feel,
  lens,
  shapes: z
    .array(shapeName)
    .max(40)
    .default([])
    .describe("names of hand shapes, the most important first; the first built-in one when empty"),
  players: z.array(z.string().min(1).max(100)).min(1).max(500).describe("ids of the players who get it"),
  handedOn: dateField.describe("the day on which it is handed out, written 2026-03-01"),
});

const handedLessonSchema = z
  .object({
    id: z.string().describe("id of the lesson"),
    title: z.string().describe("its title"),
    handedOn: z.string().describe("day on which it was handed out, written 2026-03-01"),
    createdAt: timeField.describe("when it was handed out, in UTC"),
    chart: z.string().describe("chart text"),
    level: z.enum(LEVEL_IDS).describe("how far the student has come"),
    lens: z.string().nullable().describe("name of its lens; null for none"),
    answer: z
      .object({
        take: z.string().describe("id of the take"),
        title: z.string().describe("its title"),
        date: z.string().nullable().describe("day on which it was played; null when not known"),
      })
      .nullable()
      .describe(
        "the first take of the player that was kept after it was handed out and is played on the same chords, in any key; null while it waits for one",
      ),
  })
  .meta({ id: "HandedLesson", description: "a lesson that waits for a take, or that one has answered" });

export const handedLessonsSchema = z
  .object({ lessons: z.array(handedLessonSchema).describe("the newest first") })
  .meta({ id: "HandedLessons", description: "the lessons that were handed out to a player" });

export const madeLessonsSchema = z
  .object({
    lessons: z
      .array(
        z.object({
          id: z.string().describe("id of the lesson"),
          player: z.string().describe("id of the player"),
        }),
      )
      .describe("a lesson for each player, in the order of the players"),
  })
  .meta({ id: "MadeLessons", description: "lessons that were handed out" });

export const lessonParams = idParams.extend({ lesson: z.string().max(100).describe("id of the lesson") });

export const exerciseField = z.string().max(40).describe("id of the exercise, as the lesson has it");

export type HandedLesson = Frozen<z.output<typeof handedLessonSchema>>;
export type NewLesson = Frozen<z.input<typeof newLesson>>;
export type MadeLessons = Frozen<z.output<typeof madeLessonsSchema>>;
