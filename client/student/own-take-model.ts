/** A player reads their own take: what they think of it themselves comes first. No page is needed for it. */
import type { Feedback } from "../../src/findings/lesson.ts";
import { mergeFeedback } from "../../src/findings/merge-feedback.ts";

/** What is not kept yet, and the feedback that it was written upon. */
export interface OwnDraft {
  readonly draft: string;
  readonly base: Feedback;
}

export interface OwnTake extends OwnDraft {
  /** What was written elsewhere meanwhile, and differs; null where nothing does. */
  readonly theirs: string | null;
  /** The player goes on without writing. */
  readonly passed: boolean;
  readonly sending: boolean;
  readonly refused: unknown;
}

/** @param left what was written before the page was left, and is not kept yet */
export function opened(stands: Feedback, left: OwnDraft | null): OwnTake {
  const { draft, base } = left ?? { draft: stands.own, base: stands };
  return met(
    { ...{ draft, base, theirs: null }, ...{ passed: false, sending: false, refused: null } },
    stands,
  );
}

export const written = (state: OwnTake, draft: string): OwnTake => ({ ...state, draft });

export const sending = (state: OwnTake): OwnTake => ({ ...state, sending: true, refused: null });

/** What was written meanwhile stays written. */
export const kept = (state: OwnTake, base: Feedback): OwnTake => ({
  ...state,
  ...{ base, theirs: null, sending: false, refused: null },
});

export const refused = (state: OwnTake, error: unknown): OwnTake => ({
  ...state,
  ...{ sending: false, refused: error },
});

/** Something else stands on the server. Where it is another own view, the player chooses; else the draft goes on. */
export function met(state: OwnTake, stands: Feedback): OwnTake {
  const { differing } = mergeFeedback(state.base, { ...state.base, own: state.draft.trim() }, stands);
  const theirs = differing.find(({ place }) => place.field === "own")?.theirs ?? null;
  // Where nothing was written here, what stands is what is seen.
  const draft = unkept(state) ? state.draft : stands.own;
  return { ...state, ...{ base: stands, draft, theirs, sending: false, refused: null } };
}

/** One of the two texts was chosen, or both together. */
export const settled = (state: OwnTake, draft: string): OwnTake => ({ ...state, draft, theirs: null });

/** Goes on without writing, where that is left to the player. */
export const passedBy = (state: OwnTake): OwnTake => (isAskedFor(state) ? state : { ...state, passed: true });

/** The teacher wants it to be written before anything is read. */
export const isAskedFor = ({ base }: OwnTake): boolean => base.askFirst && !base.asked;

/** True when the take may be read. */
export const mayRead = (state: OwnTake): boolean =>
  !isAskedFor(state) && (state.base.own !== "" || state.passed);

/** What is to be sent; null where there is nothing new, or where it must be chosen first. */
export function toSend({ draft, base, theirs, sending: busy }: OwnTake): string | null {
  const text = draft.trim();
  return busy || theirs !== null || text === "" || text === base.own ? null : text;
}

export const unkept = ({ draft, base }: OwnDraft): boolean => draft.trim() !== base.own;
