/**
 * Slides as they are played, 32 of them: one finger from a black key onto the white key beside it, on a short note
 * [practice]; from every black key, inside a phrase, at its start, as a printed grace note and in thirds, in either hand.
 */
import { describe, expect, it } from "vitest";
import { BUILT_IN_SHAPES, explainHands, type HandNote } from "../../src/hands/index.ts";
import type { Hand } from "../../src/take/index.ts";
import { line } from "./line.ts";

interface Slide {
  readonly name: string;
  readonly pitches: readonly (number | readonly number[] | null)[];
  readonly beats: readonly number[];
  /** Index of the note that slides, among all notes. */
  readonly from: number;
  readonly grace?: boolean;
  readonly hand?: Hand;
}

/** C sharp, E flat, F sharp, A flat and B flat above middle C, each with the white key above it. */
const BLACK = [61, 63, 66, 68, 70];

const inside = BLACK.map(
  (key): Slide => ({
    name: `inside a phrase, from ${key}`,
    pitches: [key - 4, key - 2, key, key + 1, key - 2, key - 4],
    beats: [0.5, 0.5, 0.2, 0.8, 0.5, 0.5],
    from: 2,
  }),
);
const downward = BLACK.map(
  (key): Slide => ({
    name: `downward, from ${key}`,
    pitches: [key + 4, key + 2, key, key - 1, key + 2, key + 4],
    beats: [0.5, 0.5, 0.2, 0.8, 0.5, 0.5],
    from: 2,
  }),
);
const atStart = BLACK.map(
  (key): Slide => ({
    name: `first in a phrase, from ${key}`,
    pitches: [key - 4, key - 2, null, key, key + 1, key + 4, key + 1],
    beats: [0.5, 0.5, 1.5, 0.2, 0.8, 0.5, 0.5],
    from: 2,
  }),
);
const veryFirst = BLACK.map(
  (key): Slide => ({
    name: `first of all, from ${key}`,
    pitches: [key, key + 1, key + 4, key + 6],
    beats: [0.2, 0.8, 0.5, 0.5],
    from: 0,
  }),
);
const graces = BLACK.map(
  (key): Slide => ({
    name: `a printed grace note, from ${key}`,
    pitches: [key - 4, key - 2, key, key + 1, key + 4],
    beats: [0.5, 0.4, 0.1, 0.5, 0.5],
    from: 2,
    grace: true,
  }),
);
/** E flat with G, B flat with D, F sharp with A: the third's lower key slides, or both do. */
const thirds = (
  [
    [
      [63, 67],
      [64, 67],
    ],
    [
      [70, 74],
      [71, 74],
    ],
    [
      [66, 69],
      [67, 69],
    ],
    [
      [66, 70],
      [67, 71],
    ],
  ] as const
).map(
  ([from, to]): Slide => ({
    name: `in thirds, from ${from.join(" and ")}`,
    pitches: [from[0] - 3, from, to, from[0] - 3],
    beats: [0.5, 0.2, 0.8, 0.5],
    from: 1,
  }),
);
const left = [61, 66, 70].map(
  (key): Slide => ({
    name: `in the left hand, from ${key - 12}`,
    pitches: [key - 16, key - 14, key - 12, key - 11, key - 14, key - 16],
    beats: [0.5, 0.5, 0.2, 0.8, 0.5, 0.5],
    from: 2,
    hand: "left",
  }),
);

const SLIDES = [...inside, ...downward, ...atStart, ...veryFirst, ...graces, ...thirds, ...left];

function isTaken({ pitches, beats, from, grace, hand }: Slide): boolean {
  const { notes, spans, chart } = line("key: C\n| C7 | C7 | C7 | C7 |", pitches, {
    beats,
    hand: hand ?? "right",
  });
  const played = notes.map((note, i): HandNote => {
    if (!grace) return note;
    const printed = {
      spelling: "C4",
      fingering: [],
      grace: i === from ? ("acciaccatura" as const) : null,
      staff: 1,
      voice: "1",
      bar: 0,
      documentId: null,
      lyric: null,
    };
    return { ...note, printed };
  });
  const account = explainHands(played, spans, chart, { shapes: BUILT_IN_SHAPES, evidence: true });
  const slid = account.notes[from]!.slide;
  const to = played.findIndex(({ id }) => id === slid);
  return to >= 0 && account.notes[to]!.finger === account.notes[from]!.finger;
}

describe("slides", () => {
  it("are 32", () => {
    expect(SLIDES).toHaveLength(32);
  });

  it.each(SLIDES)("are told with one finger: $name", (slide) => {
    expect(isTaken(slide)).toBe(true);
  });

  it("are none where the notes are as long as those around them", () => {
    for (const slide of [...inside, ...downward])
      expect(isTaken({ ...slide, beats: slide.beats.map(() => 0.5) })).toBe(false);
  });
});
