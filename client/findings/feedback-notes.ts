/** What the teacher and the player add to the findings of a take; kept with the take. */
import type { Feedback } from "../../src/findings/lesson.ts";
import { fetchJson } from "../shell/api.ts";

export type FeedbackNotes = Feedback;

export const readNotes = (takeId: string): Promise<FeedbackNotes> =>
  fetchJson<FeedbackNotes>(`/takes/${encodeURIComponent(takeId)}/feedback`);

export const keepNotes = (takeId: string, notes: FeedbackNotes): Promise<unknown> =>
  fetchJson<unknown>(`/takes/${encodeURIComponent(takeId)}/feedback`, {
    method: "PUT",
    headers: { "content-type": "application/json" },
    body: JSON.stringify(notes),
  });
