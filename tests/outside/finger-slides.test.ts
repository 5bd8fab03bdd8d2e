/**
 * Slides as teachers show them: one finger falls from a black key to the white key beside it, the black one at most a
 * short note. Played anywhere: inside a phrase, first in it, crushed, as a printed grace note, in thirds. [practice]
 */
import { describe, expect, it } from "vitest";
import { analyse } from "../../src/analyse.ts";
import { BUILT_IN_SHAPES, explainHand, type HandShape } from "../../src/hands/index.ts";
import { type LineOptions, line } from "../hands/line.ts";
import { attributes, bar, document, pitchElement } from "../ingest/score-text.ts";

const C7 = "key: C\nidiom: blues\n| C7 | C7 | C7 | C7 |";
const SHAPES: Record<string, { shapes: readonly HandShape[]; evidence?: boolean }> = {
  "nothing chosen": { shapes: BUILT_IN_SHAPES, evidence: true },
  "no shape": { shapes: [] },
};

function slides(pitches: Parameters<typeof line>[1], options: LineOptions, how: keyof typeof SHAPES): number {
  const made = line(C7, pitches, { secondsPerBeat: 0.5, ...options });
  const account = explainHand(made.notes, made.spans, made.chart, {
    ...SHAPES[how]!,
    hand: options.hand ?? "right",
  });
  for (const { from, to } of account.handFit.slides.taken) {
    const finger = (id: string) => account.notes[Number(id.slice(1)) - 1]!.finger;
    expect(finger(from)).toBe(finger(to));
  }
  return account.handFit.slides.taken.length;
}

/** Black key and the white key a half step above it. */
const PAIRS = [
  [63, 64],
  [70, 71],
  [66, 67],
  [68, 69],
] as const;

describe.each(Object.keys(SHAPES))("with %s", (how) => {
  it.each(PAIRS)("first in a phrase, %i to %i, at 60, 120 and 250 milliseconds", (black, white) => {
    for (const beats of [0.12, 0.24, 0.5]) {
      expect(slides([null, black, white, white + 3, white], { beats: [2, beats, 1, 1, 1] }, how)).toBe(1);
    }
  });

  it.each(PAIRS)("inside a phrase, %i to %i, crushed", (black, white) => {
    expect(slides([60, 62, black, white, 62, 60], { beats: [0.5, 0.4, 0.1, 0.9, 0.5, 0.5] }, how)).toBe(1);
  });

  it.each(PAIRS)("downwards too where the note is crushed, %i to the key below", (black) => {
    const below = black - 1;
    expect(slides([60, 62, black, below, 60], { beats: [0.5, 0.4, 0.1, 0.9, 0.5] }, how)).toBe(1);
  });

  it("in thirds, both keys or one of them", () => {
    const beats = [2, 0.12, 1, 1];
    // E flat and G flat fall to E and G: two slides; with G struck again only one.
    expect(slides([null, [63, 66], [64, 67], [60, 64]], { beats }, how)).toBe(2);
    expect(slides([null, [63, 67], [64, 67], [60, 64]], { beats }, how)).toBe(1);
  });

  it("in the left hand", () => {
    expect(slides([null, 51, 52, 55, 52], { beats: [2, 0.12, 1, 1, 1], hand: "left" }, how)).toBe(1);
  });
});

describe("no slide", () => {
  it.each([
    ["a chromatic line", [60, 61, 62, 63, 64, 65, 66, 67], 0.25],
    ["a chromatic line from a black key", [63, 64, 65, 66, 67, 68], 0.25],
    ["even eighth notes", [60, 63, 64, 67, 64, 63, 60], 0.5],
    ["white to white", [null, 64, 65, 67, 65], 0.5],
  ] as const)("is heard in %s", (_, keys, beats) => {
    expect(slides([...keys], { beats }, "no shape")).toBe(0);
  });
});

it("is read from a printed grace note, first in the piece and inside it", () => {
  const grace = (name: string) => `<note><grace slash="yes"/>${pitchElement(name)}<voice>1</voice></note>`;
  const plain = (name: string, length: number) =>
    `<note>${pitchElement(name)}<duration>${length}</duration><voice>1</voice></note>`;
  const music = `${attributes(2)}${grace("Eb4")}${plain("E4", 2)}${plain("G4", 2)}${grace("Bb4")}${plain("B4", 2)}${plain("G4", 2)}`;
  const score = document(
    `<part-list><score-part id="P1"><part-name>Piano</part-name></score-part></part-list><part id="P1">${bar(1, music)}</part>`,
  );
  const { handFit } = analyse(score, C7, { name: "grace.musicxml" });
  expect(handFit.slides.taken).toHaveLength(2);
});
