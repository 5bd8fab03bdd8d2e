/** `/lesson`: a lesson without a take, from its address. `/lessons`: handing it out. `/players/:id/lessons`: what waits. */
import { z } from "zod";
import { chartText, parseChart, parseKey, transposeChart } from "../../src/chart/index.ts";
import { BUILT_IN_SHAPES, shapesNamed } from "../../src/hands/index.ts";
import { type LessonWish, preparedLesson } from "../../src/practice/index.ts";
import { maySeePlayer } from "../access.ts";
import { idParams } from "../contract/fields.ts";
import {
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
import { requiredChartText } from "./fields.ts";
import { sheetRoutes } from "./lesson-sheet.ts";

const asked = { form: "blues-basic", key: "F", lens: "guide-tones" };

export const lessonRoutes: readonly Route[] = [
  ...sheetRoutes({
    path: "/lesson",
    access: "working",
    params: z.object({}),
    query: lessonQuery,
    summary: "A lesson without a take: placement map, exercises, a chorus to improvise on",
    which: "a lesson without a take",
    example: { query: asked },
    wish: ({ database }, _params, query) => wishOf(database, query),
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
  ...sheetRoutes({
    path: "/players/:id/lessons/:lesson",
    access: "own",
    params: lessonParams,
    query: lessonKeyQuery,
    summary: "A lesson that was handed out",
    which: "a lesson that was handed out",
    wish: keptWish,
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
