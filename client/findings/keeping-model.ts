/** Feedback on its way to the server: what is kept there, what stands here, and where another window wrote something else. */
import type { Finding } from "../../src/account.ts";
import type { Feedback } from "../../src/findings/lesson.ts";
import {
  type Difference,
  mergeFeedback,
  sameFeedback,
  samePlace,
  type TextPlace,
  textAt,
  withText,
} from "../../src/findings/merge-feedback.ts";

/** What is being written and not handed in: wordings by finding, remarks by kind. */
export interface HalfWritten {
  readonly wordings: Readonly<Record<string, string>>;
  readonly remarks: Readonly<Partial<Record<Finding["kind"], string>>>;
}

const NOTHING_WRITTEN: HalfWritten = { wordings: {}, remarks: {} };

export interface Keeping {
  /** What the server has, as far as is known here. */
  readonly base: Feedback;
  /** What stands on the page. */
  readonly notes: Feedback;
  /** Places in which somebody else wrote something different meanwhile; theirs stays kept until one is chosen. */
  readonly differing: readonly Difference[];
  readonly half: HalfWritten;
  /** What was sent and not answered yet. */
  readonly sending: Feedback | null;
  /** Why it was not kept. */
  readonly trouble: unknown;
}

/** What has to outlive the page while it is not kept. */
export type Unkept = Pick<Keeping, "base" | "notes" | "differing" | "half">;

export const keepingOf = (base: Feedback): Keeping => ({
  ...{ base, notes: base, differing: [], half: NOTHING_WRITTEN, sending: null, trouble: null },
});

export const isKept = ({ base, notes, differing }: Keeping): boolean =>
  differing.length === 0 && sameFeedback(base, notes);

/** What is to outlive the window; null where nothing would be lost with it. */
export function unkept(state: Keeping): Unkept | null {
  const { base, notes, differing, half } = state;
  const written = [...Object.values(half.wordings), ...Object.values(half.remarks)].some((text) => text);
  return isKept(state) && !written ? null : { base, notes, differing, half };
}

export const written = (state: Keeping, half: HalfWritten): Keeping => ({ ...state, half });

export const changed = (state: Keeping, notes: Feedback): Keeping => ({ ...state, notes });

/** What is to be sent now; null while something is on its way, and where there is nothing new. */
export function toSend({ base, notes, differing, sending }: Keeping): Feedback | null {
  if (sending !== null) return null;
  const wanted = differing.reduce((so, { place, theirs }) => withText(so, place, theirs), notes);
  return sameFeedback(wanted, base) ? null : { ...wanted, version: base.version };
}

export const sent = (state: Keeping): Keeping => ({ ...state, sending: toSend(state), trouble: null });

/** The server has what was sent; what was written since then is still to go. */
export const kept = (state: Keeping, answer: Feedback): Keeping => ({
  ...state,
  ...{ base: answer, sending: null, trouble: null },
});

export const refused = (state: Keeping, trouble: unknown): Keeping => ({ ...state, sending: null, trouble });

/** Something else stands on the server: both are joined, and places in which they differ are told. */
export function met(state: Keeping, stands: Feedback): Keeping {
  // An answer that was stored for reading without a network may be older than what was kept from here.
  if ((stands.version ?? 0) < (state.base.version ?? 0)) return state;
  const { feedback, differing } = mergeFeedback(state.base, state.notes, stands);
  const places: TextPlace[] = state.differing
    .map(({ place }) => place)
    .filter((place) => !differing.some((one) => samePlace(one.place, place)));
  return {
    ...{ base: stands, notes: feedback, half: state.half, sending: null, trouble: null },
    differing: [
      ...places
        .map((place) => ({ place, theirs: textAt(stands, place) }))
        .filter(({ place, theirs }) => theirs !== textAt(feedback, place)),
      ...differing,
    ],
  };
}

/** What an earlier window did not get kept is taken over, as if it had been written here. */
export const takenOver = (state: Keeping, left: Unkept): Keeping => {
  const joined = met({ ...keepingOf(left.base), ...left }, state.base);
  const { feedback, differing } = mergeFeedback(state.base, state.notes, joined.notes);
  // Two windows were left behind: the later one's words are a difference like any other.
  const places = differing.map(({ place }) => ({ place, theirs: textAt(joined.notes, place) }));
  const known = (one: Difference) => !places.some(({ place }) => samePlace(place, one.place));
  return {
    ...state,
    notes: { ...feedback, version: state.base.version },
    half: {
      wordings: { ...left.half.wordings, ...state.half.wordings },
      remarks: { ...left.half.remarks, ...state.half.remarks },
    },
    differing: [...[...state.differing, ...joined.differing].filter(known), ...places],
  };
};

/** One of the two texts, or another, was chosen for a place. */
export const settled = (state: Keeping, place: TextPlace, text: string): Keeping => ({
  ...state,
  notes: withText(state.notes, place, text),
  differing: state.differing.filter((one) => !samePlace(one.place, place)),
});

/** What is not kept is given up: the server's stands. */
export const givenUp = (state: Keeping): Keeping => ({
  ...keepingOf(state.base),
  half: state.half,
});
