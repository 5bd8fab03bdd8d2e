/** Lessons without a take, as the server holds them. */
import type { HandedLesson, MadeLessons, NewLesson } from "../../server/contract/lessons.ts";
import type { PreparedLesson } from "../../src/practice/prepared-lesson.ts";
import { fetchJson } from "../shell/api.ts";

const player = (id: string): string => `/players/${encodeURIComponent(id)}/lessons`;

/** Path below the API of a lesson that was handed out. */
export const handedPath = (playerId: string, lesson: string): string =>
  `${player(playerId)}/${encodeURIComponent(lesson)}`;

/** @param path below the API: of a lesson from its address, or of one that was handed out */
export const readLesson = (path: string, query: URLSearchParams): Promise<PreparedLesson> =>
  fetchJson<PreparedLesson>(`${path}?${query}`);

export const readHanded = (playerId: string): Promise<readonly HandedLesson[]> =>
  fetchJson<{ lessons: HandedLesson[] }>(player(playerId)).then(({ lessons }) => lessons);

export const handOutLesson = (lesson: NewLesson): Promise<MadeLessons> =>
  fetchJson<MadeLessons>("/lessons", {
    method: "POST",
    headers: { "content-type": "application/json" },
    body: JSON.stringify(lesson),
  });

export const takeLessonBack = (playerId: string, lesson: string): Promise<unknown> =>
  fetchJson<unknown>(handedPath(playerId, lesson), { method: "DELETE" });
