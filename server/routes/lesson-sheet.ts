/** The sheet of a lesson, whole and by exercise, at whichever address the lesson is asked for. */
import type { z } from "zod";
import {
  type Exercise,
  type LessonWish,
  lessonExercise,
  preparedLesson,
  preparedLessonSchema,
} from "../../src/practice/index.ts";
import type { Access } from "../access.ts";
import { exerciseField } from "../contract/lessons.ts";
import { notFound } from "../errors.ts";
import { type Route, route } from "../route.ts";
import type { Services } from "../services.ts";
import {
  lessonPlayAlongFile,
  lessonScoreFile,
  PLAY_ALONG,
  playAlongFields,
  playAlongFile,
  SCORE,
  scoreFile,
} from "./exercise-files.ts";

interface SheetPlace<P extends z.ZodObject, Q extends z.ZodObject> {
  readonly path: string;
  readonly access: Access;
  readonly params: P;
  readonly query: Q;
  readonly summary: string;
  /** Which lesson it is, as its files are told of: "a lesson that was handed out". */
  readonly which: string;
  readonly example?: { readonly query: Record<string, string> };
  /** What the lesson is made of. @throws HttpProblem where there is none */
  readonly wish: (services: Services, params: z.output<P>, query: z.output<Q>) => Promise<LessonWish>;
}

/** Routes to a lesson and to its files: the sheet, all of it as score and MIDI, each exercise as score and MIDI. */
export function sheetRoutes<P extends z.ZodObject, Q extends z.ZodObject>(place: SheetPlace<P, Q>): Route[] {
  const { path, access, params, query, summary, which, example, wish } = place;
  const played = query.extend(playAlongFields.shape);
  const ofOne = params.extend({ exercise: exerciseField });
  const common = { method: "get", access, ...(example && { example }) } as const;
  const commonToOne = { method: "get", access, ...(example && { example: ofExercise(example) }) } as const;
  // Extended schemas hold the fields of their places, which their types do not tell.
  const asked = (services: Services, at: unknown, how: unknown) =>
    wish(services, at as z.output<P>, how as z.output<Q>);
  const playing = (how: unknown) => how as z.output<typeof playAlongFields>;
  const exercise = async (services: Services, at: unknown, how: unknown) => {
    const { exercise: id } = at as { readonly exercise: string };
    return { id, one: exerciseOf(await asked(services, at, how), id) };
  };
  return [
    route({
      ...{ ...common, path, summary, params, query },
      answers: { 200: { description: "the lesson", schema: preparedLessonSchema } },
      handle: async ({ params: at, query: how, services }) => ({
        status: 200,
        json: preparedLesson(await asked(services, at, how)),
      }),
    }),
    route({
      ...{ ...common, path: `${path}/whole.musicxml`, params, query },
      summary: `All exercises of ${which}, as one score`,
      answers: { 200: SCORE },
      handle: async ({ params: at, query: how, services }) =>
        lessonScoreFile(preparedLesson(await asked(services, at, how))),
    }),
    route({
      ...{ ...common, path: `${path}/whole.mid`, params, query: played },
      summary: `All exercises of ${which}, as one MIDI file to play along with`,
      answers: { 200: PLAY_ALONG },
      handle: async ({ params: at, query: how, services }) =>
        lessonPlayAlongFile(preparedLesson(await asked(services, at, how)), playing(how)),
    }),
    route({
      ...{ ...commonToOne, path: `${path}/:exercise/score.musicxml`, params: ofOne, query },
      summary: `One exercise of ${which}, as notation`,
      answers: { 200: SCORE },
      handle: async ({ params: at, query: how, services }) => {
        const { id, one } = await exercise(services, at, how);
        return scoreFile(one, `exercise-${id}`);
      },
    }),
    route({
      ...{ ...commonToOne, path: `${path}/:exercise/play-along.mid`, params: ofOne, query: played },
      summary: `One exercise of ${which}, as MIDI to play along with`,
      answers: { 200: PLAY_ALONG },
      handle: async ({ params: at, query: how, services }) => {
        const { id, one } = await exercise(services, at, how);
        return playAlongFile(one, `exercise-${id}`, playing(how));
      },
    }),
  ];
}

/** The first exercise of a lesson is called 1. */
const ofExercise = (example: { readonly query: Record<string, string> }) => ({
  ...example,
  params: { exercise: "1" },
});

function exerciseOf(wish: LessonWish, id: string): Exercise {
  const exercise = lessonExercise(wish, id);
  if (exercise === null) throw notFound("exercise", id);
  return exercise;
}
