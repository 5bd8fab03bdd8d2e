/** `/lesson`: a lesson without a take, from its address. `/lessons`: handing it out. `/players/:id/lessons`: what waits. */
import type { z } from "zod";
import { chartText, parseChart, parseKey, transposeChart } from "../../src/chart/index.ts";
import { BUILT_IN_SHAPES, shapesNamed } from "../../src/hands/index.ts";
import {
  type LessonWish,
  lessonExercise,
  preparedLesson,
  preparedLessonSchema,
} from "../../src/practice/index.ts";
import { maySeePlayer } from "../access.ts";
import { idParams } from "../contract/fields.ts";
import {
  exerciseField,
  handedLessonsSchema,
  lessonKeyQuery,
  lessonParams,
  lessonQuery,
  madeLessonsSchema,
  newLesson,
} from "../contract/lessons.ts";
import { notFound } from "../errors.ts";
import { handedLessons } from "../handed-lessons.ts";
import { lensNamed } from "../lens-named.ts";
import { type Route, route } from "../route.ts";
import type { Services } from "../services.ts";
import type { Database } from "../store/database.ts";
import { findLesson, handOut, type KeptWish, takeBack } from "../store/lessons.ts";
import { findRow, listRows } from "../store/library.ts";
import {
  lessonPlayAlongFile,
  lessonScoreFile,
  PLAY_ALONG,
  playAlongFields,
  playAlongFile,
  SCORE,
  scoreFile,
} from "./exercise-files.ts";
import { requiredChartText } from "./fields.ts";

const sheet = { 200: { description: "the lesson", schema: preparedLessonSchema } };
const asked = { form: "blues-basic", key: "F", lens: "guide-tones" };
const exerciseParams = lessonParams.extend({ exercise: exerciseField });

export const lessonRoutes: readonly Route[] = [
  route({
    method: "get",
    path: "/lesson",
    access: "working",
    summary: "A lesson without a take: placement map, exercises, a chorus to improvise on",
    query: lessonQuery,
    answers: sheet,
    example: { query: asked },
    handle: async ({ query, services }) => ({
      status: 200,
      json: preparedLesson(await wishOf(services.database, query)),
    }),
  }),
  route({
    method: "get",
    path: "/lesson/whole.musicxml",
    access: "working",
    summary: "All exercises of a lesson without a take, as one score",
    query: lessonQuery,
    answers: { 200: SCORE },
    example: { query: asked },
    handle: async ({ query, services }) =>
      lessonScoreFile(preparedLesson(await wishOf(services.database, query))),
  }),
  route({
    method: "get",
    path: "/lesson/whole.mid",
    access: "working",
    summary: "All exercises of a lesson without a take, as one MIDI file to play along with",
    query: lessonQuery.extend(playAlongFields.shape),
    answers: { 200: PLAY_ALONG },
    example: { query: asked },
    handle: async ({ query, services }) =>
      lessonPlayAlongFile(preparedLesson(await wishOf(services.database, query)), query),
  }),
  route({
    method: "get",
    path: "/lesson/:exercise/score.musicxml",
    access: "working",
    summary: "One exercise of a lesson without a take, as notation",
    params: exerciseParams.pick({ exercise: true }),
    query: lessonQuery,
    answers: { 200: SCORE },
    example: { params: { exercise: "1" }, query: asked },
    handle: async ({ params, query, services }) =>
      scoreFile(
        exerciseOf(await wishOf(services.database, query), params.exercise),
        `exercise-${params.exercise}`,
      ),
  }),
  route({
    method: "get",
    path: "/lesson/:exercise/play-along.mid",
    access: "working",
    summary: "One exercise of a lesson without a take, as MIDI to play along with",
    params: exerciseParams.pick({ exercise: true }),
    query: lessonQuery.extend(playAlongFields.shape),
    answers: { 200: PLAY_ALONG },
    example: { params: { exercise: "1" }, query: asked },
    handle: async ({ params, query, services }) =>
      playAlongFile(
        exerciseOf(await wishOf(services.database, query), params.exercise),
        `exercise-${params.exercise}`,
        query,
      ),
  }),
  route({
    method: "post",
    path: "/lessons",
    access: "teaching",
    summary: "Hand a lesson out to players; it waits until a take of theirs answers it",
    body: newLesson,
    answers: { 201: { description: "the lessons", schema: madeLessonsSchema } },
    example: { body: { ...asked, players: ["tilda"], handedOn: "2026-10-01" } },
    handle: async ({ body, services, actor }) => {
      const { database } = services;
      const players = [...new Set(body.players)];
      for (const id of players) {
        if (!maySeePlayer(actor, id) || (await findRow(database, "players", id)) === null)
          throw notFound("player", id);
      }
      const wish = await wishOf(database, { ...body, shape: body.shapes });
      const { title } = preparedLesson(wish);
      const kept: KeptWish = { ...wish, chart: chartText(wish.chart) };
      const lessons = await handOut(database, players, { title, handedOn: body.handedOn, wish: kept });
      return { status: 201, json: { lessons } };
    },
  }),
  route({
    method: "get",
    path: "/players/:id/lessons",
    access: "own",
    summary: "The lessons that were handed out to a player, and the takes that answered them",
    params: idParams,
    answers: { 200: { description: "the lessons", schema: handedLessonsSchema } },
    example: { params: { id: "tilda" } },
    handle: async ({ params, services }) => {
      if ((await findRow(services.database, "players", params.id)) === null)
        throw notFound("player", params.id);
      return { status: 200, json: { lessons: await handedLessons(services.database, params.id) } };
    },
  }),
  route({
    method: "get",
    path: "/players/:id/lessons/:lesson",
    access: "own",
    summary: "A lesson that was handed out",
    params: lessonParams,
    query: lessonKeyQuery,
    answers: sheet,
    handle: async ({ params, query, services }) => ({
      status: 200,
      json: preparedLesson(await keptWish(services, params, query)),
    }),
  }),
  route({
    method: "get",
    path: "/players/:id/lessons/:lesson/whole.musicxml",
    access: "own",
    summary: "All exercises of a lesson that was handed out, as one score",
    params: lessonParams,
    query: lessonKeyQuery,
    answers: { 200: SCORE },
    handle: async ({ params, query, services }) =>
      lessonScoreFile(preparedLesson(await keptWish(services, params, query))),
  }),
  route({
    method: "get",
    path: "/players/:id/lessons/:lesson/whole.mid",
    access: "own",
    summary: "All exercises of a lesson that was handed out, as one MIDI file to play along with",
    params: lessonParams,
    query: lessonKeyQuery.extend(playAlongFields.shape),
    answers: { 200: PLAY_ALONG },
    handle: async ({ params, query, services }) =>
      lessonPlayAlongFile(preparedLesson(await keptWish(services, params, query)), query),
  }),
  route({
    method: "get",
    path: "/players/:id/lessons/:lesson/:exercise/score.musicxml",
    access: "own",
    summary: "One exercise of a lesson that was handed out, as notation",
    params: exerciseParams,
    query: lessonKeyQuery,
    answers: { 200: SCORE },
    handle: async ({ params, query, services }) =>
      scoreFile(
        exerciseOf(await keptWish(services, params, query), params.exercise),
        `exercise-${params.exercise}`,
      ),
  }),
  route({
    method: "get",
    path: "/players/:id/lessons/:lesson/:exercise/play-along.mid",
    access: "own",
    summary: "One exercise of a lesson that was handed out, as MIDI to play along with",
    params: exerciseParams,
    query: lessonKeyQuery.extend(playAlongFields.shape),
    answers: { 200: PLAY_ALONG },
    handle: async ({ params, query, services }) =>
      playAlongFile(
        exerciseOf(await keptWish(services, params, query), params.exercise),
        `exercise-${params.exercise}`,
        query,
      ),
  }),
  route({
    method: "delete",
    path: "/players/:id/lessons/:lesson",
    access: "player",
    summary: "Take a lesson back",
    params: lessonParams,
    answers: { 204: { description: "taken back" } },
    handle: async ({ params, services }) => {
      if (!(await takeBack(services.database, params.id, params.lesson)))
        throw notFound("lesson", params.lesson);
      return { status: 204 };
    },
  }),
];

/** What is asked for, with the chart read and moved, shapes and lens found. */
async function wishOf(
  database: Database,
  { inKey, level, feel, lens, shape, ...chart }: z.infer<typeof lessonQuery>,
): Promise<LessonWish> {
  const read = parseChart(await requiredChartText(chart, database));
  const own = (await listRows(database, "shapes")).map((row) => row.shape);
  const names = [shape ?? []].flat();
  return {
    chart: moved(read, inKey),
    level,
    feel,
    shapes: shapesNamed(names.length === 0 ? [BUILT_IN_SHAPES[0]!.name] : names, own),
    lens: lens === undefined || lens === "" ? null : await lensNamed(database, lens),
  };
}

/** A key that does not say its mode is of the chart's own: a minor blues in "C" is in C minor. */
function moved(chart: LessonWish["chart"], inKey: string | undefined): LessonWish["chart"] {
  if (inKey === undefined || inKey === "") return chart;
  const key = parseKey(inKey);
  return transposeChart(chart, /m$|minor|^[a-g]/.test(inKey) ? key : { ...key, mode: chart.key.mode });
}

async function keptWish(
  { database }: Services,
  { id, lesson }: z.infer<typeof lessonParams>,
  { inKey }: z.infer<typeof lessonKeyQuery>,
): Promise<LessonWish> {
  const row = await findLesson(database, id, lesson);
  if (row === null) throw notFound("lesson", lesson);
  return { ...row.wish, chart: moved(parseChart(row.wish.chart), inKey) };
}

function exerciseOf(wish: LessonWish, id: string) {
  const exercise = lessonExercise(wish, id);
  if (exercise === null) throw notFound("exercise", id);
  return exercise;
}
