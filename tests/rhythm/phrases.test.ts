import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { findPhrases, phraseShape } from "../../src/rhythm/index.ts";
import { chartOf, even, type PlayedNote, played, steady } from "./played.ts";

const chart = chartOf();

function phrasesOf(notes: readonly PlayedNote[]) {
  return findPhrases(played(notes), chart, steady());
}

describe("phrases", () => {
  it("end at a rest and say where they start, how long they are, and how long the breath is", () => {
    // Eight eighths in bar 1, a rest of a bar, eight eighths from the third bar on. [practice]
    const line = [60, 62, 64, 65, 67, 69, 71, 72];
    const phrases = phrasesOf([...even(line, 0, 0.5), ...even(line, 8, 0.5)]);
    expect(phrases.map((p) => [p.firstNote, p.lastNote, p.bar, p.beat, p.ends])).toEqual([
      ["n1", "n8", 1, 1, "rest"],
      ["n9", "n16", 3, 1, "end"],
    ]);
    expect(phrases[0]!.bars).toBeCloseTo(1, 1);
    expect(phrases[0]!.restBeats).toBeCloseTo(4, 1);
    expect(phrases[0]!.restSeconds).toBeCloseTo(2, 1);
    expect(phrases[1]!.boundary).toBe(1);
  });

  it("do not end on a held note that runs on without silence", () => {
    // Of 156 gaps of three beats and more with under .15 beats of silence, people ended a phrase at 2 (open solos).
    const phrases = phrasesOf([
      ...even([60, 62, 64, 65, 67, 65], 0, 0.5),
      { pitch: 64, at: 3, beats: 3.9 },
      ...even([62, 64, 65, 67, 69, 67], 7, 0.5),
    ]);
    expect(phrases.map((p) => p.ends)).toEqual(["end"]);
  });

  it("end on a held note once it is let go for a beat", () => {
    const phrases = phrasesOf([
      ...even([60, 62, 64, 65, 67, 65], 0, 0.5),
      { pitch: 64, at: 3, beats: 2.9 },
      ...even([62, 64, 65, 67, 69, 67], 7, 0.5),
    ]);
    expect(phrases.map((p) => [p.firstNote, p.lastNote, p.ends])).toEqual([
      ["n1", "n7", "rest"],
      ["n8", "n13", "end"],
    ]);
  });

  it("are not cut between detached quarter notes", () => {
    const detached = [60, 62, 64, 65, 67, 69, 71, 72].map((pitch, i) => ({ pitch, at: i, beats: 0.1 }));
    expect(phrasesOf(detached)).toHaveLength(1);
  });

  it("do not end at an eighth rest inside a short line", () => {
    expect(phrasesOf([...even([60, 62, 64, 65], 0, 0.5), ...even([67, 65, 64, 62], 2.5, 0.5)])).toHaveLength(
      1,
    );
  });

  it("of even eighths without a breath stay one, however long", () => {
    expect(
      phrasesOf(
        even(
          Array.from({ length: 200 }, (_, i) => 60 + ((i * 5) % 13)),
          0,
          0.5,
        ),
      ),
    ).toHaveLength(1);
  });

  it("give a note that stands alone between two breaths to the nearer side", () => {
    // People seldom make it a phrase: of 4,945 annotated phrases of the open solos 20 are a single note.
    const phrases = phrasesOf([
      ...even([60, 62, 64, 65, 67], 0, 0.5),
      { pitch: 69, at: 4.5, beats: 0.4 },
      ...even([67, 65, 64, 62, 60], 7, 0.5),
    ]);
    expect(phrases.map((p) => p.notes)).toEqual([6, 5]);
  });

  it("keep to seconds where there is no beat", () => {
    const notes = played([...even([60, 62, 64, 65], 0, 0.5), ...even([67, 65, 64, 62], 4, 0.5)], {
      rubato: true,
    });
    const phrases = findPhrases(notes, chart, steady("rubato"));
    expect(phrases.map((p) => [p.notes, p.bars, p.restBeats, p.beat])).toEqual([
      [4, null, null, null],
      [4, null, null, null],
    ]);
    expect(phrases[0]!.restSeconds).toBeGreaterThan(0.9);
  });

  it("answer when they start alike and close what was left open", () => {
    // A question that ends high, and the same start led home. [practice]
    const phrases = phrasesOf([
      ...even([60, 63, 65, 67, 70, 72], 0, 0.5),
      ...even([60, 63, 65, 67, 63, 60], 5, 0.5),
    ]);
    expect(phrases.map((p) => p.answers)).toEqual([null, "p1"]);
  });

  it("do not answer when they go another way", () => {
    const phrases = phrasesOf([
      ...even([60, 63, 65, 67, 70, 72], 0, 0.5),
      ...even([72, 70, 71, 62, 75, 74, 73, 77, 60, 79], 5, 0.25),
    ]);
    expect(phrases.map((p) => p.answers)).toEqual([null, null]);
  });

  it("of no notes are none", () => {
    expect(phrasesOf([])).toEqual([]);
  });

  it("together hold every note once, in order, whatever is played", () => {
    const note = fc.record({
      pitch: fc.integer({ min: 40, max: 90 }),
      gap: fc.double({ min: 0.02, max: 6, noNaN: true }),
      beats: fc.double({ min: 0.05, max: 4, noNaN: true }),
    });
    fc.assert(
      fc.property(fc.array(note, { minLength: 1, maxLength: 60 }), fc.boolean(), (gaps, rubato) => {
        let at = 0;
        const notes = played(
          gaps.map(({ pitch, gap, beats }) => {
            at += gap;
            return { pitch, at, beats };
          }),
          { rubato },
        );
        const phrases = findPhrases(notes, chart, steady(rubato ? "rubato" : "tracked"));
        const place = new Map(notes.map((n, i) => [n.id, i]));
        let next = 0;
        for (const phrase of phrases) {
          expect(place.get(phrase.firstNote)).toBe(next);
          next = place.get(phrase.lastNote)! + 1;
          expect(next).toBe(place.get(phrase.firstNote)! + phrase.notes);
          expect(phrase.restSeconds).toBeGreaterThanOrEqual(0);
          expect(phrase.boundary).toBeLessThanOrEqual(1);
          expect(phrase.bars === null).toBe(rubato);
        }
        expect(next).toBe(notes.length);
      }),
      { numRuns: 200 },
    );
  });
});

describe("the shape of a phrase", () => {
  it.each([
    [[60, 64, 67, 64, 60], "arch"],
    [[67, 62, 60, 62, 67], "valley"],
    [[60, 62, 64, 67, 71], "rising"],
    [[72, 69, 67, 64, 60], "falling"],
    [[60, 60, 61, 60, 60], "level"],
    [[60, 72, 48, 60, 60], "wave"],
    [[60], "level"],
    [[60, 67], "rising"],
  ] as const)("%j is %s", (pitches, shape) => {
    expect(phraseShape(pitches)).toBe(shape);
  });
});
