/** What the teacher and the player add to the findings of a take; kept with the take. */
import type { Feedback } from "../../src/findings/lesson.ts";
import { fetchJson } from "../shell/api.ts";

const addressOf = (takeId: string) => `/takes/${encodeURIComponent(takeId)}/feedback`;

export const readNotes = (takeId: string): Promise<Feedback> => fetchJson<Feedback>(addressOf(takeId));

/** Refused with `changed-meanwhile` where something else is kept than what the version of `notes` was. */
export const keepNotes = (takeId: string, notes: Feedback): Promise<Feedback> =>
  fetchJson<Feedback>(addressOf(takeId), {
    method: "PUT",
    headers: { "content-type": "application/json" },
    body: JSON.stringify(notes),
  });
