/** A player reads their own take: what they think of it themselves comes first. No page is needed for it. */
import type { Feedback } from "../../src/findings/lesson.ts";

export interface OwnTake {
  /** What is being written. */
  readonly draft: string;
  /** What is kept with the take; "" for nothing yet. */
  readonly kept: string;
  /** The teacher wants it to be written before anything is read. */
  readonly askedFor: boolean;
  /** The player goes on without writing. */
  readonly passed: boolean;
  readonly sending: boolean;
  readonly refused: unknown;
}

/** @param draft what was written before the page was left, and is not kept yet */
export function opened({ own, askFirst, asked }: Feedback, draft: string | null): OwnTake {
  return {
    draft: draft ?? own,
    kept: own,
    askedFor: askFirst && !asked,
    ...{ passed: false, sending: false, refused: null },
  };
}

export const written = (state: OwnTake, draft: string): OwnTake => ({ ...state, draft });

export const sending = (state: OwnTake): OwnTake => ({ ...state, sending: true, refused: null });

/** What was written meanwhile stays written. */
export const kept = (state: OwnTake, own: string): OwnTake => ({
  ...state,
  ...{ kept: own, askedFor: false, sending: false, refused: null },
});

export const refused = (state: OwnTake, error: unknown): OwnTake => ({
  ...state,
  ...{ sending: false, refused: error },
});

/** Goes on without writing, where that is left to the player. */
export const passedBy = (state: OwnTake): OwnTake => (state.askedFor ? state : { ...state, passed: true });

/** True when the take may be read. */
export const mayRead = ({ kept: own, passed, askedFor }: OwnTake): boolean =>
  !askedFor && (own !== "" || passed);

/** What is to be sent; null where there is nothing new. */
export function toSend({ draft, kept: own, sending: busy }: OwnTake): string | null {
  const text = draft.trim();
  return busy || text === "" || text === own ? null : text;
}

export const unkept = ({ draft, kept: own }: OwnTake): boolean => draft.trim() !== own;
