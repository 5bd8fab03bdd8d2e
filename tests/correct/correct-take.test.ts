/** What somebody puts right of single notes is truth for everything that follows, and can be undone. */
import { describe, expect, it } from "vitest";
import type { AnalyseOptionsInput, Analysis } from "../../src/account.ts";
import { analyse } from "../../src/analyse.ts";
import { annotatedScore } from "../../src/export/index.ts";
import { readTake } from "../../src/ingest/index.ts";
import { heardLike } from "../listen/heard-takes.ts";
import { ARPEGGIOS, FOUR_BARS, smallMidi } from "../server/harness.ts";

type Corrections = NonNullable<AnalyseOptionsInput["corrections"]>;

/** The scale of C, two octaves up, a quarter note each; 96 ticks to a quarter, as `smallMidi` writes it. */
const SCALE = [60, 62, 64, 65, 67, 69, 71, 72, 74, 76, 77, 79, 81, 83, 84];
const corrected = (corrections: Corrections, options: AnalyseOptionsInput = {}): Analysis =>
  analyse(smallMidi(SCALE), "key: C\n| C | C | C | C |", { ...options, shapes: [], corrections });
const fourth = (analysis: Analysis) => analysis.notes.find(({ source }) => source === "t1/288/65");

describe("a note's name in its source", () => {
  it("is its part, tick and key, whatever else is corrected or chosen", () => {
    const plain = corrected([]);
    expect(plain.notes.map(({ source }) => source).slice(0, 4)).toEqual([
      "t1/0/60",
      "t1/96/62",
      "t1/192/64",
      "t1/288/65",
    ]);
    const without = corrected([{ note: "t1/0/60", removed: true }], { method: "rubato" });
    expect(fourth(without)).toMatchObject({ pitch: 65, id: fourth(plain)!.id });
  });
});

describe("a correction", () => {
  it("gives a finger, and the fingers around it follow", () => {
    // The handbooks pass the thumb under after the third finger, on F. With the fourth finger on F, the next key up is
    // the little finger's or the thumb's: no other finger lies there. [practice]
    const plain = corrected([]);
    expect(fourth(plain)).toMatchObject({ finger: 1, fingerSource: "inferred" });
    const analysis = corrected([{ note: "t1/288/65", finger: 4 }]);
    expect(fourth(analysis)).toMatchObject({ finger: 4, fingerSource: "corrected" });
    expect([1, 5]).toContain(analysis.notes[4]!.finger);
    expect(analysis.notes.slice(0, 3).map(({ finger }) => finger)).toEqual([1, 2, 3]);
  });

  it("is printed upright in the score, where fingers that were worked out stand in italics", () => {
    const score = annotatedScore(corrected([{ note: "t1/288/65", finger: 4 }]));
    expect(score.match(/<fingering[^>]*>/g)!.filter((mark) => !mark.includes("italic"))).toHaveLength(1);
  });

  it("names the key that it is put right to as the account spells it, in a file without a signature too", () => {
    // The minor third of C is E flat, in a blues and in C minor. [practice]
    for (const chart of ["key: C\n| C7 | C7 | C7 | C7 |", "key: Cm\n| Cm | Cm | Cm | Cm |"]) {
      const { notes, corrections } = analyse(smallMidi(SCALE), chart, {
        shapes: [],
        corrections: [
          { note: "t1/192/64", pitch: 63 },
          { note: "t1/96/62", removed: true },
        ],
      });
      expect(notes.find(({ source }) => source === "t1/192/64")!.spelling).toBe("Eb4");
      expect(corrections[0]!.text).toContain("put right to E flat");
    }
  });

  it("gives a note to the other hand; a line that stands alone is then shared by both", () => {
    const analysis = corrected([{ note: "t1/288/65", hand: "left" }]);
    expect(fourth(analysis)).toMatchObject({ hand: "left", solo: true, handMargin: 1 });
    expect(analysis.notes.filter(({ hand }) => hand === "right")).toHaveLength(SCALE.length - 1);
  });

  it("makes a note of a recording sure that was confirmed, or moved to where it began", () => {
    const midi = readTake(smallMidi(SCALE), { name: "a.mid" });
    const unsure = heardLike(midi, (one, i) =>
      i === 3 || i === 5 ? { ...one, certainty: 0.6, doubt: "octave ghost" } : one,
    );
    const chart = "key: C\n| C | C | C | C |";
    const plain = analyse(unsure, chart, { shapes: [] });
    const [confirmed, moved] = [plain.notes[3]!, plain.notes[5]!];
    expect(confirmed).toMatchObject({ certainty: 0.6, doubt: "octave ghost" });
    const onset = moved.onset + 0.1;
    const { notes, corrections } = analyse(unsure, chart, {
      shapes: [],
      corrections: [
        { note: confirmed.source, played: true },
        { note: moved.source, onset },
      ],
    });
    const named = (source: string) => notes.find((one) => one.source === source)!;
    expect(named(confirmed.source)).toMatchObject({ certainty: 1, onset: confirmed.onset });
    expect(named(confirmed.source).doubt).toBeUndefined();
    expect(named(moved.source)).toMatchObject({ certainty: 1, pitch: moved.pitch });
    expect(named(moved.source).onset).toBeCloseTo(onset, 3);
    expect(corrections.map(({ became }) => became)).toEqual(["applied", "applied"]);
    expect(corrections[0]!.text).toMatch(/confirmed as played/);
  });

  it("puts a key right, with its name and degree", () => {
    const [note] = analyse(smallMidi(ARPEGGIOS), FOUR_BARS, {
      corrections: [{ note: "t1/0/65", pitch: 64 }],
    }).notes;
    // E is the major seventh of F, by what the words mean.
    expect(note).toMatchObject({ pitch: 64, degree: "7", source: "t1/0/65" });
  });

  it("leaves a slip in the account, and says nothing of it", () => {
    const analysis = corrected([{ note: "t1/288/65", meant: false }]);
    expect(fourth(analysis)).toMatchObject({ meant: false, solo: false, finger: null, phrase: null });
    expect(fourth(analysis)!.account).toContain("not meant");
    expect(analysis.notes).toHaveLength(SCALE.length);
    expect(analysis.phrases.reduce((sum, phrase) => sum + phrase.notes, 0)).toBe(SCALE.length - 1);
  });

  it("takes a note away, or adds one in its place of time", () => {
    const analysis = corrected([
      { note: "t1/288/65", removed: true },
      { note: "black key", added: { pitch: 66, onset: 1.5, duration: 0.4 } },
    ]);
    expect(analysis.notes.map(({ pitch }) => pitch)).toEqual(SCALE.map((p) => (p === 65 ? 66 : p)));
    expect(new Set(analysis.notes.map(({ id }) => id)).size).toBe(SCALE.length);
    expect(analysis.notes[3]).toMatchObject({ source: "black key", solo: true, velocity: 64 });
    // What the file holds is told as it is.
    expect(analysis.source.notes).toBe(SCALE.length);
  });

  it("is listed with what became of it; one whose note is gone is told, not dropped", () => {
    const analysis = corrected([
      { note: "t1/288/65", hand: "left", finger: 2 },
      { note: "t9/7/61", finger: 3 },
    ]);
    expect(analysis.corrections).toMatchObject([
      {
        became: "applied",
        id: "n4",
        text: "The F at 1.50 seconds: given to the left hand and played with finger 2.",
      },
      { became: "not found", id: null, note: "t9/7/61", finger: 3 },
    ]);
    expect(analysis.warnings).toContainEqual(
      expect.objectContaining({ code: "correction-not-found", where: "t9/7/61" }),
    );
  });
});

describe("a correction that cannot be meant", () => {
  it("is refused with what, where and what to do", () => {
    const twice = [
      { note: "t1/0/60", finger: 1 as const },
      { note: "t1/0/60", finger: 2 as const },
    ];
    expect(() => corrected(twice)).toThrow(/corrected twice/);
    expect(() => corrected([{ note: "t1/0/60", fingers: 1 } as never])).toThrow(/fingers/);
    const taken = [{ note: "t1/0/60", added: { pitch: 60, onset: 0, duration: 1 } }];
    expect(() => corrected(taken)).toThrow(/called "t1\/0\/60"/);
    const all = SCALE.map((pitch, i) => ({ note: `t1/${i * 96}/${pitch}`, removed: true as const }));
    expect(() => corrected(all)).toThrow(/Every note/);
  });
});
