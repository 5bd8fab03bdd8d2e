/**
 * What a pianist does with ornaments, repeated notes, double notes, runs and chords. Each case names its source:
 * [practice] for common practice, Hanon for "The Virtuoso Pianist" [memory], Parncutt et al. 1997 for the spans.
 * Lines are fingered without a hand shape unless one is named, so that the fingers are the program's own choice.
 */
import { describe, expect, it } from "vitest";
import { analyse } from "../../src/analyse.ts";
import { BUILT_IN_SHAPES, explainHand, type HandShape } from "../../src/hands/index.ts";
import { type LineOptions, line } from "../hands/line.ts";
import { attributes, bar, document, note, rest } from "../ingest/score-text.ts";

const CHART = "key: C\nidiom: blues\n| C7 | C7 | C7 | C7 |";
const [thirdAndSteps] = BUILT_IN_SHAPES as [HandShape];
const isBlack = (pitch: number) => [1, 3, 6, 8, 10].includes(pitch % 12);

function explain(
  pitches: Parameters<typeof line>[1],
  options: LineOptions = {},
  shapes: readonly HandShape[] = [],
) {
  const made = line(CHART, pitches, options);
  return explainHand(made.notes, made.spans, made.chart, { shapes, hand: options.hand ?? "right" });
}

const fingers = (account: ReturnType<typeof explain>) =>
  account.notes.map(({ finger }) => finger ?? 0).join("");
const chordwise = (account: ReturnType<typeof explain>, size: number) =>
  fingers(account).match(new RegExp(`.{${size}}`, "g"));
const alternating = (a: number, b: number, times: number) =>
  Array.from({ length: 2 * times }, (_, i) => (i % 2 === 0 ? a : b));

describe("ornaments", () => {
  it.each([
    ["white keys", 60, 62],
    ["a half step", 64, 65],
    ["white to black", 64, 66],
    ["black to white", 70, 72],
    ["black keys", 66, 68],
  ])("a trill on %s alternates two fingers that lie side by side or one apart [practice]", (_, a, b) => {
    const played = fingers(explain(alternating(a, b, 8), { beats: 0.125 }));
    const [low, high] = [Number(played[0]), Number(played[1])];
    expect(played).toBe(`${low}${high}`.repeat(8));
    expect(high - low).toBeGreaterThanOrEqual(1);
    expect(high - low).toBeLessThanOrEqual(2);
  });

  it("a trill inside a placement is played by the placement's own fingers [practice]", () => {
    // Index finger on C, middle finger on D.
    const account = explain([60, 63, ...alternating(60, 62, 4), 60, 57], { beats: 0.25 }, [thirdAndSteps]);
    expect(fingers(account)).toBe("24" + "23232323" + "21");
    expect(account.placements).toHaveLength(1);
  });

  it.each([
    ["turn", [64, 62, 60, 62, 64]],
    ["mordent", [62, 60, 62]],
    ["upper mordent", [62, 64, 62]],
  ])("a %s gives each key one finger and crosses none [practice]", (_, keys) => {
    const played = [...fingers(explain(keys, { beats: 0.25 }))].map(Number);
    const byKey = new Map<number, number>();
    keys.forEach((key, i) => {
      expect(byKey.get(key) ?? played[i]).toBe(played[i]);
      byKey.set(key, played[i]!);
    });
    const rising = [...byKey].sort((a, b) => a[0] - b[0]).map(([, finger]) => finger);
    expect(rising).toEqual([...rising].sort((a, b) => a - b));
    expect(new Set(rising).size).toBe(rising.length);
  });

  it("a crushed note falls from a black key with the finger of its white neighbour [practice]", () => {
    const account = explain([60, 63, 64, 62], { beats: [0.5, 0.1, 0.9, 1] }, [thirdAndSteps]);
    expect(account.notes[1]!.finger).toBe(4);
    expect(account.notes[2]!.finger).toBe(4);
    expect(account.notes[1]!.slide).toBe("n3");
  });

  it("a crushed note from a white key takes another finger: only black keys can be slid off [practice]", () => {
    const account = explain([60, 64, 65, 62], { beats: [0.5, 0.1, 0.9, 1] });
    expect(account.notes[1]!.finger).not.toBe(account.notes[2]!.finger);
    expect(account.notes.every(({ slide }) => slide === null)).toBe(true);
  });
});

describe("repeated notes", () => {
  it("change fingers when they are fast: 4 3 2 1 or 3 2 1, towards the thumb [practice; Hanon, repeated notes]", () => {
    const played = [...fingers(explain([67, 67, 67, 67, 65], { beats: 0.2 }))].map(Number);
    for (let k = 1; k < 4; k++) expect(played[k]).not.toBe(played[k - 1]);
  });

  it("change towards the thumb at the pace of a minuet too, 3 2 1 [lit: Hanon no. 44; printed so in minuets]", () => {
    expect(fingers(explain([62, 62, 62, 67], { beats: 1 })).slice(0, 3)).toBe("321");
  });

  it("keep their finger when each is left long before the next [practice]", () => {
    const played = fingers(explain([60, 60, 60, 62], { beats: 3 }));
    expect(new Set(played.slice(0, 3)).size).toBe(1);
  });
});

describe("runs", () => {
  const chromatic = Array.from({ length: 25 }, (_, i) => 60 + i);

  it.each([
    ["right hand", "right", 0],
    ["left hand", "left", -12],
  ] as const)(
    "a chromatic run keeps the thumb on white keys, %s [Hanon no. 40; practice]",
    (_, hand, down) => {
      const keys = chromatic.map((key) => key + down);
      const played = [...fingers(explain(keys, { hand, beats: 0.25 }))].map(Number);
      keys.forEach((key, i) => {
        if (isBlack(key)) expect(played[i], `key ${key}`).not.toBe(1);
        if (i > 0) expect(played[i]).not.toBe(played[i - 1]);
      });
    },
  );

  it("the thumb passes under the third or fourth finger in a scale, never under the fifth [Hanon no. 39]", () => {
    for (const tonic of [60, 62, 64, 65, 67, 69, 71]) {
      const keys = [0, 2, 4, 5, 7, 9, 11, 12, 14, 16, 17, 19, 21, 23, 24].map((step) => tonic + step);
      const played = [...fingers(explain(keys))].map(Number);
      for (let i = 1; i < keys.length; i++) {
        if (played[i] === 1) expect([3, 4], `from ${tonic}: ${played.join("")}`).toContain(played[i - 1]);
      }
    }
  });
});

describe("double notes and chords", () => {
  it("a row of thirds goes 1-3, 2-4, 3-5 and back [practice; Hanon, scales in thirds]", () => {
    const thirds = [
      [60, 64],
      [62, 65],
      [64, 67],
      [62, 65],
      [60, 64],
    ];
    expect(chordwise(explain(thirds), 2)).toEqual(["13", "24", "35", "24", "13"]);
  });

  it("and in the left hand 5-3, 4-2, 3-1: what lies in the mirror", () => {
    const thirds = [
      [48, 52],
      [50, 53],
      [52, 55],
    ];
    expect(chordwise(explain(thirds, { hand: "left" }), 2)).toEqual(["53", "42", "31"]);
    // The mirror stands on D: 62 - k becomes 62 + k.
    const mirrored = thirds.map(([a, b]) => [124 - b!, 124 - a!]);
    const right = chordwise(explain(mirrored), 2)!.map((pair) => [...pair].reverse().join(""));
    expect(right).toEqual(["53", "42", "31"]);
  });

  it.each(["right", "left"] as const)(
    "octaves take thumb and little or ring finger, %s hand [practice]",
    (hand) => {
      const octaves = [
        [60, 72],
        [61, 73],
        [62, 74],
        [63, 75],
      ];
      for (const pair of chordwise(explain(octaves, { hand }), 2)!) {
        const sorted = [...pair].map(Number).sort((a, b) => a - b);
        expect(sorted[0]).toBe(1);
        expect([4, 5]).toContain(sorted[1]);
      }
    },
  );

  // On white keys every octave is thumb and little finger's, one after the other: the hand moves as a whole
  // (Hanon, The Virtuoso Pianist, no. 51 [memory]).
  it.each([
    ["a scale", [0, 2, 4, 5, 7, 9, 11, 12, 11, 9, 7, 5, 4, 2, 0]],
    ["a broken chord", [0, 4, 7, 12, 7, 4, 0, 4, 0, 7]],
  ])("octaves on white keys, one after the other, keep 1 and 5: %s", (_, steps) => {
    const octaves = steps.map((step) => [60 + step, 72 + step]);
    expect(new Set(chordwise(explain(octaves), 2))).toEqual(new Set(["15"]));
    const low = steps.map((step) => [36 + step, 48 + step]);
    expect(new Set(chordwise(explain(low, { hand: "left" }), 2))).toEqual(new Set(["51"]));
  });

  it.each([
    ["root position", [60, 64, 67], "135"],
    ["first inversion", [64, 67, 72], "125"],
    ["second inversion", [67, 72, 76], "135"],
  ])("a triad in %s is played as every method has it: %s [practice]", (_, keys, wanted) => {
    expect(fingers(explain([keys]))).toBe(wanted);
  });

  it("two keys of a placement are struck by the placement's fingers, in either hand", () => {
    const keys = [[60, 63], 62, [57, 62], 60];
    expect(fingers(explain(keys, {}, [thirdAndSteps]))).toBe("24" + "3" + "13" + "2");
    const low = [[48, 51], 50, [45, 50], 48];
    expect(fingers(explain(low, { hand: "left" }, [thirdAndSteps]))).toBe("42" + "3" + "53" + "4");
  });
});

describe("stretches", () => {
  it("are told beyond the comfortable span of a pair, and not within it [Parncutt et al. 1997, MaxComf]", () => {
    // Fingers 3 and 4 are comfortable up to 2 semitones, 1 and 5 up to 13.
    const marked = (a: string, b: string) => ({ printed: { 0: a, 1: b }, beats: 0.25 });
    expect(explain([64, 67], marked("3", "4")).handFit.stretches).toEqual([
      { from: "n1", to: "n2", fingers: [3, 4], semitones: 3 },
    ]);
    expect(explain([64, 66], marked("3", "4")).handFit.stretches).toEqual([]);
    expect(explain([60, 73], marked("1", "5")).handFit.stretches).toEqual([]);
    expect(explain([60, 74], marked("1", "5")).handFit.stretches).toHaveLength(1);
  });
});

describe("lines for two hands", () => {
  it("are fingered hand by hand through the whole analysis, thumbs towards each other [practice]", () => {
    const staff = (n: number) => `<staff>${n}</staff>`;
    const score = document(
      `<part-list><score-part id="P1"><part-name>Piano</part-name></score-part></part-list><part id="P1">${bar(
        1,
        `${attributes(2, 4, 4, "<staves>2</staves>")}${["A3", "C4", "D4", "Eb4"]
          .map((key) => note(key, 1, "", 1, staff(1)))
          .join("")}${rest(4)}<backup><duration>8</duration></backup>${rest(4, 5)}${["Eb3", "D3", "C3", "A2"]
          .map((key) => note(key, 1, "", 5, staff(2)))
          .join("")}`,
      )}</part>`,
    );
    const { notes } = analyse(score, "key: C\nidiom: blues\n| C7 |", {
      name: "two-hands.musicxml",
      soloHand: "both",
      shapes: ["third-and-steps"],
    });
    expect(notes.every(({ solo }) => solo)).toBe(true);
    expect(notes.map(({ hand }) => hand)).toEqual([
      ...Array.from({ length: 4 }, () => "right"),
      ...Array.from({ length: 4 }, () => "left"),
    ]);
    // The right hand from the thumb up; the left hand takes the same keys with 2 3 4 5 (thumb side first).
    expect(notes.map(({ finger }) => finger).join("")).toBe("1234" + "2345");
  });
});

describe("thirds struck together", () => {
  it("are taken by 1 3, 2 4 and 3 5, not by thumb and second finger [lit: Hanon, scales in thirds]", () => {
    const thirds = [
      [60, 64],
      [62, 65],
      [64, 67],
      [65, 69],
      [67, 71],
    ];
    const played = fingers(explain(thirds, { beats: 0.5 }));
    for (let k = 0; k < played.length; k += 2) expect(["13", "24", "35"]).toContain(played.slice(k, k + 2));
  });
});
