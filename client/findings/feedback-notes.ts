/** What the teacher and the player add to the findings of a take; kept with the take. */
import type { Finding, FindingHeading } from "../../src/account.ts";
import { fetchJson } from "../shell/api.ts";

export interface FeedbackNotes {
  hidden: string[];
  /** The teacher's wording by finding id. */
  edited: Record<string, string>;
  added: { kind: Finding["kind"]; heading?: FindingHeading; text: string }[];
  signed: string;
  /** The player's own evaluation. */
  own: string;
  /** Show the findings only after the player has written. */
  askFirst: boolean;
  /** The player has written. */
  asked: boolean;
}

export const readNotes = (takeId: string): Promise<FeedbackNotes> =>
  fetchJson<FeedbackNotes>(`/takes/${encodeURIComponent(takeId)}/feedback`);

export const keepNotes = (takeId: string, notes: FeedbackNotes): Promise<unknown> =>
  fetchJson<unknown>(`/takes/${encodeURIComponent(takeId)}/feedback`, {
    method: "PUT",
    headers: { "content-type": "application/json" },
    body: JSON.stringify(notes),
  });
