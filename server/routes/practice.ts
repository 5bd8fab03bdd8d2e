/** `/takes/:id/practice`: what to practise next, as a sheet, as notation and as MIDI to play along with. */
import { z } from "zod";
import { writeMusicXml } from "../../src/export/write-musicxml.ts";
import { shapesNamed } from "../../src/hands/index.ts";
import {
  type Exercise,
  exerciseMidi,
  exerciseNamed,
  exerciseScore,
  type PracticeOptions,
  practiceSheet,
  practiceSheetSchema,
} from "../../src/practice/index.ts";
import { openAccount } from "../analysis/analyst.ts";
import { idParams } from "../contract/fields.ts";
import { notFound } from "../errors.ts";
import { type Route, route } from "../route.ts";
import type { Services } from "../services.ts";
import { listRows } from "../store/library.ts";
import { listOf } from "./fields.ts";
import { account } from "./takes.ts";

const sheetFields = z.object({
  keys: z.string().max(200).optional().describe("other keys, separated by commas"),
  findings: z.string().max(2000).optional().describe("exercises for these findings, separated by commas"),
  most: z.coerce
    .number()
    .int()
    .min(1)
    .max(40)
    .optional()
    .describe("greatest number of exercises in one key, 1 to 40"),
});

type SheetFields = z.infer<typeof sheetFields>;

const exerciseParams = idParams.extend({
  exercise: z.string().max(40).describe("id of the exercise, as the sheet has it"),
});

export const practiceRoutes: readonly Route[] = [
  route({
    method: "get",
    path: "/takes/:id/practice",
    access: "take",
    summary: "The practice sheet of a take",
    params: idParams,
    query: sheetFields,
    answers: { 200: { description: "the sheet", schema: practiceSheetSchema } },
    example: { params: { id: "tilda-week-1" } },
    handle: async ({ params, query, services }) => ({
      status: 200,
      json: await sheetOf(services, params.id, query),
    }),
  }),
  route({
    method: "get",
    path: "/takes/:id/practice/:exercise/score.musicxml",
    access: "take",
    summary: "One exercise as notation",
    params: exerciseParams,
    query: sheetFields,
    answers: { 200: { description: "MusicXML", type: "application/vnd.recordare.musicxml+xml" } },
    example: { params: { id: "tilda-week-1", exercise: "1" } },
    handle: async ({ params, query, services }) => ({
      status: 200,
      type: "application/vnd.recordare.musicxml+xml",
      fileName: `${params.id}-exercise-${params.exercise}.musicxml`,
      body: writeMusicXml(exerciseScore(await exerciseOf(services, params, query))),
    }),
  }),
  route({
    method: "get",
    path: "/takes/:id/practice/:exercise/play-along.mid",
    access: "take",
    summary: "One exercise as MIDI, with click and bass or shells",
    params: exerciseParams,
    query: sheetFields.extend({
      tempo: z.coerce.number().min(20).max(300).default(80).describe("quarter notes a minute, 20 to 300"),
      click: z
        .enum(["none", "every beat", "two and four"])
        .default("every beat")
        .describe("where the click falls"),
      backing: z
        .enum(["none", "walking bass", "shells"])
        .default("walking bass")
        .describe("what accompanies it"),
      countIn: z.coerce.number().int().min(0).max(4).default(1).describe("number of bars counted in, 0 to 4"),
      rightHand: z.enum(["yes", "no"]).default("yes").describe("whether the exercise itself is played"),
    }),
    answers: { 200: { description: "MIDI", type: "audio/midi" } },
    example: { params: { id: "tilda-week-1", exercise: "1" } },
    handle: async ({ params, query, services }) => {
      const { tempo, click, backing, countIn, rightHand } = query;
      const exercise = await exerciseOf(services, params, query);
      return {
        status: 200,
        type: "audio/midi",
        fileName: `${params.id}-exercise-${params.exercise}.mid`,
        body: exerciseMidi(exercise, { tempo, click, backing, countIn, rightHand: rightHand === "yes" }),
      };
    },
  }),
];

async function sheetOf(services: Services, id: string, query: SheetFields) {
  const { analysis, shapes } = await materialOf(services, id);
  return practiceSheet(analysis, shapes, wishes(query));
}

/** One exercise, made without the others. */
async function exerciseOf(
  services: Services,
  params: z.infer<typeof exerciseParams>,
  query: SheetFields,
): Promise<Exercise> {
  const { analysis, shapes } = await materialOf(services, params.id);
  const exercise = exerciseNamed(analysis, shapes, wishes(query), params.exercise);
  if (exercise === null) throw notFound("exercise", params.exercise);
  return exercise;
}

/** The account, and every shape that its notes may stand in. */
export async function materialOf(services: Services, id: string) {
  const analysis = openAccount(await account(services, id));
  const own = (await listRows(services.database, "shapes")).map((row) => row.shape);
  return { analysis, shapes: shapesNamed(null, [...analysis.options.ownShapes, ...own]) };
}

function wishes(query: SheetFields): PracticeOptions {
  return {
    ...(query.keys === undefined ? {} : { keys: listOf(query.keys) }),
    ...(query.findings === undefined ? {} : { findings: listOf(query.findings) }),
    ...(query.most === undefined ? {} : { most: query.most }),
  };
}
