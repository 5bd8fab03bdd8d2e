/** `/takes/:id/practice`: what to practise next, as a sheet, as notation and as MIDI to play along with. */
import { z } from "zod";
import { shapesNamed } from "../../src/hands/index.ts";
import {
  type Exercise,
  exerciseNamed,
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
import { PLAY_ALONG, playAlongFields, playAlongFile, SCORE, scoreFile } from "./exercise-files.ts";
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
    answers: { 200: SCORE },
    example: { params: { id: "tilda-week-1", exercise: "1" } },
    handle: async ({ params, query, services }) =>
      scoreFile(await exerciseOf(services, params, query), `${params.id}-exercise-${params.exercise}`),
  }),
  route({
    method: "get",
    path: "/takes/:id/practice/:exercise/play-along.mid",
    access: "take",
    summary: "One exercise as MIDI, with click and bass or shells",
    params: exerciseParams,
    query: sheetFields.extend(playAlongFields.shape),
    answers: { 200: PLAY_ALONG },
    example: { params: { id: "tilda-week-1", exercise: "1" } },
    handle: async ({ params, query, services }) =>
      playAlongFile(
        await exerciseOf(services, params, query),
        `${params.id}-exercise-${params.exercise}`,
        query,
      ),
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
