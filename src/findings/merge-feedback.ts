/**
 * Feedback that was changed in two places at once, joined remark by remark. What only one side changed is that side's;
 * where both wrote something different in one place, nobody's words are dropped: the place is told, with both.
 */
import type { Feedback } from "./lesson.ts";

/** Where one text stands: the wording of a finding, the player's own view, or the signature. */
export type TextPlace =
  | { readonly field: "own" | "signed" }
  | { readonly field: "edited"; readonly finding: string };

/** A place in which the two sides differ; the merged feedback holds mine there. */
export interface Difference {
  readonly place: TextPlace;
  /** What the other side wrote there; empty where it took its text out. */
  readonly theirs: string;
}

export interface MergedFeedback {
  /** Of the version that stands on the other side. */
  readonly feedback: Feedback;
  readonly differing: readonly Difference[];
}

/**
 * Three-way merge.
 *
 * @param base what both sides began with
 * @param mine @param theirs what each of them has now
 * @example
 * mergeFeedback(base, { ...base, signed: "A" }, { ...base, own: "B" }).feedback // signed "A", own "B", nothing differs
 */
export function mergeFeedback(base: Feedback, mine: Feedback, theirs: Feedback): MergedFeedback {
  const places = textPlaces(base, mine, theirs);
  const joined: Feedback = {
    hidden: mergedList(base.hidden, mine.hidden, theirs.hidden, (id) => id),
    edited: theirs.edited,
    added: mergedList(base.added, mine.added, theirs.added, ({ kind, heading, text }) =>
      JSON.stringify([kind, heading ?? null, text]),
    ),
    signed: theirs.signed,
    own: theirs.own,
    // Of two states, one side's change is the only one there can be.
    askFirst: mine.askFirst === base.askFirst ? theirs.askFirst : mine.askFirst,
    asked: mine.asked === base.asked ? theirs.asked : mine.asked,
    version: theirs.version,
  };
  const changed = places.filter((place) => textAt(mine, place) !== textAt(base, place));
  return {
    feedback: changed.reduce((so, place) => withText(so, place, textAt(mine, place)), joined),
    differing: changed
      .filter((place) => textAt(theirs, place) !== textAt(base, place))
      .map((place) => ({ place, theirs: textAt(theirs, place) }))
      .filter(({ place, theirs: other }) => other !== textAt(mine, place)),
  };
}

/** The text of a place; empty where there is none. */
export function textAt(feedback: Feedback, place: TextPlace): string {
  return place.field === "edited" ? (feedback.edited[place.finding] ?? "") : feedback[place.field];
}

/** Feedback with this text in a place; an empty wording gives the finding its own words back. */
export function withText(feedback: Feedback, place: TextPlace, text: string): Feedback {
  if (place.field !== "edited") return { ...feedback, [place.field]: text };
  const { [place.finding]: _before, ...edited } = feedback.edited;
  return { ...feedback, edited: text === "" ? edited : { ...edited, [place.finding]: text } };
}

/** Whether two say the same, whatever their versions. */
export function sameFeedback(a: Feedback, b: Feedback): boolean {
  const plain = ({ hidden, edited, added, signed, own, askFirst, asked }: Feedback) =>
    JSON.stringify([
      [...hidden].sort(),
      Object.entries(edited).sort(([one], [other]) => (one < other ? -1 : 1)),
      added.map(({ kind, heading, text }) => [kind, heading ?? null, text]),
      ...[signed, own, askFirst, asked],
    ]);
  return plain(a) === plain(b);
}

export const samePlace = (a: TextPlace, b: TextPlace): boolean =>
  a.field === "edited" ? b.field === "edited" && a.finding === b.finding : a.field === b.field;

function textPlaces(...all: readonly Feedback[]): TextPlace[] {
  const findings = new Set(all.flatMap(({ edited }) => Object.keys(edited)));
  return [
    { field: "own" },
    { field: "signed" },
    ...[...findings].map((finding): TextPlace => ({ field: "edited", finding })),
  ];
}

/**
 * Entries of a list of which each side may have added or taken out some. Theirs keep their order, mine follow. The same
 * entry added on both sides is one: a change that arrived, but whose answer was lost, is not made twice.
 */
function mergedList<T>(
  base: readonly T[],
  mine: readonly T[],
  theirs: readonly T[],
  keyOf: (entry: T) => string,
): T[] {
  const timesIn = (list: readonly T[], key: string) => list.filter((one) => keyOf(one) === key).length;
  const wanted = (key: string) => {
    const [before, here, there] = [timesIn(base, key), timesIn(mine, key), timesIn(theirs, key)];
    if (here === before) return there;
    if (there === before) return here;
    if (here > before !== there > before) return here + there - before;
    return here > before ? Math.max(here, there) : Math.min(here, there);
  };
  const merged: T[] = [];
  for (const entry of [...theirs, ...mine]) {
    const key = keyOf(entry);
    if (timesIn(merged, key) < wanted(key)) merged.push(entry);
  }
  return merged;
}
