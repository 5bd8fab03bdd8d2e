import { describe, expect, it } from "vitest";
import { handFitSchema, placementSchema } from "../../src/account.ts";
import {
  BUILT_IN_SHAPES,
  explainHand,
  explainHands,
  type HandAccount,
  type HandShape,
} from "../../src/hands/index.ts";
import { type Line, type LineOptions, line } from "./line.ts";

const [thirdAndSteps, thirdStepsThird, fiveMajor] = BUILT_IN_SHAPES as [HandShape, HandShape, HandShape];
const BLUES = "key: C\nidiom: blues\n| C7 | F7 | C7 | C7 |";
const C7 = "key: C\nidiom: blues\n| C7 | C7 | C7 | C7 |";

function explain(
  chart: string,
  pitches: Parameters<typeof line>[1],
  shapes: readonly HandShape[] = [thirdAndSteps],
  options: LineOptions = {},
): HandAccount & Omit<Line, "notes"> {
  const made = line(chart, pitches, options);
  const account = explainHand(made.notes, made.spans, made.chart, { shapes, hand: options.hand ?? "right" });
  expect(handFitSchema.safeParse(account.handFit).error).toBeUndefined();
  for (const placement of account.placements)
    expect(placementSchema.safeParse(placement).error).toBeUndefined();
  return { chart: made.chart, spans: made.spans, ...account };
}

const fingers = (account: HandAccount) => account.notes.map((note) => note.finger ?? 0).join("");
const places = (account: HandAccount) => account.placements.map((one) => `${one.shape} ${one.anchorPitch}`);

describe("a line in one placement", () => {
  it("has the fingers of the shape, and one stay", () => {
    const account = explain(C7, [60, 62, 63, 62, 60, 57, 60]);
    expect(fingers(account)).toBe("2343212");
    expect(places(account)).toEqual(["third-and-steps 60"]);
    expect(account.placements[0]).toMatchObject({
      anchorFinger: 2,
      anchorDegree: "1",
      chord: "C7",
      fitsChord: true,
    });
    expect(account.handFit.share).toBe(1);
  });

  it("keeps its place around a note that is struck beside it, which is outside but has a finger", () => {
    const account = explain(C7, [60, 62, 63, 61, 62, 60, 57, 60]);
    expect(account.notes[3]!.placement).toBeNull();
    expect(account.notes[3]!.finger).not.toBeNull();
    expect(places(account)).toEqual(["third-and-steps 60"]);
  });

  it("tells no placement at all when no shape is asked about, but fingers every note", () => {
    const account = explain(C7, [60, 62, 64, 65, 67, 69, 71, 72], []);
    expect(account.placements).toEqual([]);
    expect(account.notes.every((note) => note.placement === null && note.finger !== null)).toBe(true);
    // Thumb, two, three, thumb under: the C major scale of every handbook.
    expect(fingers(account).slice(0, 7)).toBe("1231234");
  });

  it("is empty for a take without notes", () => {
    expect(explain(C7, []).handFit).toMatchObject({ share: 0, cost: 0 });
  });
});

describe("shifts", () => {
  it("go from the place on C to the place on G by the thumb, a half step above the fourth finger", () => {
    const account = explain(C7, [60, 62, 63, 64, 67, 69, 70, 69, 67]);
    expect(places(account)).toEqual(["third-and-steps 60", "third-and-steps 67"]);
    expect(fingers(account)).toBe("234123432");
    expect(account.placements[1]).toMatchObject({ shift: 7, anchorDegree: "5", fitsChord: true });
    expect(account.handFit.shifts).toMatchObject({ count: 1, distance: 7, median: 7 });
  });

  it("prefer the chord's own place where two explain the notes alike, and keep the other as an alternative", () => {
    // D alone with F: index on D (B D E F) or index on F (D F G Ab), whose thumb is on D. On F7 the shape stands on F.
    const account = explain("key: F\nidiom: blues\n| F7 | F7 |", [65, 62, 65, 62, 65]);
    expect(places(account)).toEqual(["third-and-steps 65"]);
  });

  it("keep a placement that serves both chords, and say so", () => {
    const account = explain(BLUES, [60, 62, 63, 62, 60, 57, 60, 62, 63, 62, 60, 57, 60, 62, 63, 62]);
    expect(account.handFit.shifts.common[0]).toMatchObject({ bar: 2, beat: 1, taken: true });
    expect(account.handFit.shifts.common[0]!.placement).toContain("on C");
    expect(account.handFit.shifts.late).toEqual([]);
  });

  it("are late while the hand stays in a place that the new chord does not have", () => {
    const account = explain(
      "key: C\nidiom: blues\n| C7 | F7 |",
      [67, 69, 70, 69, 67, 64, 67, 69, 70, 69, 67, 64, 67, 69, 67, 64],
    );
    expect(places(account)).toEqual(["third-and-steps 67"]);
    expect(account.handFit.shifts.late).toEqual(["n9", "n10", "n11", "n12", "n13", "n14", "n15", "n16"]);
  });

  it("are free of cost in a rest, so that a far place is reached with little more than a near one", () => {
    const far = explain(C7, [60, 62, 63, 62, null, null, null, null, 84, 86, 87, 86]);
    const near = explain(C7, [60, 62, 63, 62, 84, 86, 87, 86]);
    expect(places(far)).toEqual(["third-and-steps 60", "third-and-steps 84"]);
    expect(far.handFit.cost).toBeLessThan(near.handFit.cost);
  });
});

describe("alternatives", () => {
  it("are kept within two points for a place that explains the notes as well", () => {
    // Without a chord the place on D (B D E F) holds F and D as well as the place on F (D F G Ab).
    const account = explain("key: C\n| N.C. |", [65, 62, 65, 62]);
    expect(places(account)).toEqual(["third-and-steps 65"]);
    expect(account.handFit.alternatives.map(({ anchorPitch }) => anchorPitch)).toContain(62);
    for (const { cost } of account.handFit.alternatives) {
      expect(cost).toBeGreaterThanOrEqual(0);
      expect(cost).toBeLessThanOrEqual(2);
    }
  });

  it("are kept for notes outside every placement too, each from its first to its last other finger", () => {
    // A chord broken downwards and up again lies as well under 5 1 2 and 4 1 2 as under 3 1 2.
    const account = explain(C7, [67, 60, 64], []);
    const others = account.handFit.freeAlternatives!;
    expect(others.length).toBeGreaterThan(0);
    for (const { firstNote, lastNote, fingers: other, cost } of others) {
      const [from, to] = [Number(firstNote.slice(1)) - 1, Number(lastNote.slice(1))];
      const own = account.notes.slice(from, to).map((note) => note.finger);
      expect(other).toHaveLength(own.length);
      expect(other[0]).not.toBe(own[0]);
      expect(other[other.length - 1]).not.toBe(own[own.length - 1]);
      expect(cost).toBeLessThanOrEqual(2);
    }
  });

  it("leave printed fingers alone", () => {
    const printed = Object.fromEntries([1, 2, 3, 1, 2].map((finger, i) => [i, String(finger)]));
    expect(explain(C7, [60, 62, 64, 65, 67], [], { printed }).handFit.freeAlternatives).toEqual([]);
  });
});

describe("slides", () => {
  it("fall from the black key with the same finger, and name both notes", () => {
    const account = explain(C7, [60, 62, 63, 64, 62, 60], [thirdAndSteps], {
      beats: [0.5, 0.5, 0.1, 0.9, 0.5, 0.5],
    });
    expect(fingers(account)).toBe("234432");
    expect(account.notes[2]!.slide).toBe("n4");
    expect(account.handFit.slides.taken).toEqual([{ from: "n3", to: "n4", idiomatic: true }]);
    expect(account.notes[3]!.placement).toBe(account.notes[2]!.placement);
  });

  it("are told as missed where the keys offer an idiomatic one", () => {
    const account = explain(C7, [60, 62, 63, 62, 60, 57]);
    expect(account.handFit.slides).toEqual({
      taken: [],
      missed: ["n3"],
      possible: 1,
      ideas: ["n3"],
    });
  });
});

describe("the little finger", () => {
  it("belongs to the larger shape where it plays, in one stay", () => {
    const account = explain(C7, [60, 63, 67, 63, 62, 60, 67, 63, 60], [thirdAndSteps, thirdStepsThird]);
    expect(places(account)).toEqual(["third-steps-third 60"]);
    expect(fingers(account)).toBe("245432542");
  });

  it("is left out where it does not play", () => {
    const account = explain(C7, [60, 62, 63, 62, 60, 57, 60], [thirdAndSteps, thirdStepsThird]);
    expect(places(account)).toEqual(["third-and-steps 60"]);
  });
});

describe("double notes and octaves", () => {
  it("take two fingers of the placement when both keys are in it", () => {
    const account = explain(C7, [60, [60, 63], 62, [57, 62], 60]);
    expect(fingers(account)).toBe("224" + "3" + "13" + "2");
    expect(account.handFit.share).toBe(1);
  });

  it("are played with thumb and little finger as octaves, outside the shape", () => {
    const account = explain(C7, [
      [60, 72],
      [62, 74],
      [63, 75],
      [62, 74],
    ]);
    expect(fingers(account)).toMatch(/^1[45]1[45]1[45]1[45]$/);
    expect(account.handFit.share).toBe(0);
  });

  it("have no finger only where no hand reaches", () => {
    const account = explain(C7, [[48, 72]], []);
    expect(account.notes.map((note) => note.finger)).toEqual([null, null]);
  });
});

describe("printed fingering", () => {
  it("is truth: the place that it contradicts is not taken", () => {
    const printed = { 0: "1", 1: "2", 2: "3", 3: "2", 4: "1" };
    const account = explain(C7, [60, 62, 64, 62, 60], [thirdAndSteps, fiveMajor], { printed });
    expect(fingers(account)).toBe("12321");
    expect(account.notes.every((note) => note.fingerSource === "printed")).toBe(true);
    expect(places(account)).toEqual(["five-finger major 60"]);
  });

  it("with a substitution names the finger that strikes, and the place may be that of the finger that takes over", () => {
    const account = explain(C7, [60, 62, 63, 62, 60], [thirdAndSteps], { printed: { 2: "3-4" } });
    expect(account.notes[2]).toMatchObject({ finger: 3, fingerSource: "printed", placement: "p1" });
  });

  it("on a repeated key may change the finger in the same place", () => {
    const account = explain(C7, [60, 62, 63, 63, 62, 60], [thirdAndSteps], { printed: { 3: "3" } });
    expect(account.notes[3]).toMatchObject({ finger: 3, placement: "p1" });
  });
});

it("a key struck quickly again and again is played with fingers that change", () => {
  const account = explain(C7, [57, 60, 60, 60, 60, 62], [thirdAndSteps], { beats: [1, 0.2, 0.2, 0.2, 1, 1] });
  const repeated = account.notes.slice(1, 5).map((note) => note.finger);
  for (let k = 1; k < repeated.length; k++) expect(repeated[k]).not.toBe(repeated[k - 1]);
  expect(repeated[3]).toBe(2);
});

describe("the left hand", () => {
  it("takes the same keys with mirrored fingers", () => {
    const account = explain(C7, [48, 50, 51, 50, 48, 45, 48], [thirdAndSteps], { hand: "left" });
    expect(fingers(account)).toBe("4323454");
    expect(account.placements[0]).toMatchObject({ anchorPitch: 48, anchorFinger: 4, anchorDegree: "1" });
  });

  it("plays the C major scale down from the thumb as the right hand plays its mirror", () => {
    const up = [60, 62, 64, 65, 67, 69, 71, 72];
    const right = explain(C7, up, []);
    const left = explain(
      C7,
      up.map((pitch) => 124 - pitch),
      [],
      { hand: "left" },
    );
    expect(fingers(left)).toBe(fingers(right));
  });

  it("shifts up where its keys lie higher", () => {
    const account = explain(
      C7,
      [48, 50, 51, 50, 48, null, null, null, null, 55, 57, 58, 57, 55],
      [thirdAndSteps],
      { hand: "left" },
    );
    expect(account.placements.map(({ shift }) => shift)).toEqual([null, 7]);
  });

  it("shares a line with the right: each note by the hand that it is marked with", () => {
    const made = line(C7, [60, 62, 63, 62, 48, 50, 51, 50]);
    const notes = made.notes.map((note, i) => ({
      ...note,
      hand: i < 4 ? ("right" as const) : ("left" as const),
    }));
    const account = explainHands(notes, made.spans, made.chart, { shapes: [thirdAndSteps] });
    expect(fingers(account)).toBe("2343" + "4323");
    expect(account.placements.map(({ anchorPitch, shift }) => [anchorPitch, shift])).toEqual([
      [60, null],
      [48, null],
    ]);
  });
});

describe("what the hand tells", () => {
  it("counts shares by chorus and by chord, and the places that were never used", () => {
    const account = explain(BLUES, [60, 62, 63, 62, 60, 57, 60, 62]);
    expect(account.handFit.byChorus).toEqual([{ chorus: 1, share: 1 }]);
    expect(account.handFit.byChord).toHaveLength(1);
    expect(account.handFit.byChord[0]).toMatchObject({ chord: "C7", share: 1 });
    expect(account.handFit.byChord[0]!.used.map(({ anchor, notes }) => [anchor, notes])).toEqual([["C", 8]]);
    expect(
      account.handFit.byChord[0]!.unused.map(({ anchor, anchorDegree }) => [anchor, anchorDegree]),
    ).toEqual([["G", "5"]]);
  });

  it("finds the same fingering in another place", () => {
    const account = explain(C7, [60, 62, 63, 62, 60, null, null, null, 67, 69, 70, 69, 67]);
    expect(account.handFit.moved[0]).toEqual({ firstNotes: ["n1", "n6"], fingers: [2, 3, 4, 3, 2] });
  });

  it("names the registers that were never visited", () => {
    const { registers } = explain(C7, [60, 62, 63]).handFit;
    expect(registers!.filter(({ notes }) => notes > 0).map(({ low }) => low)).toEqual([60]);
  });

  it("tells a wide reach as a fact, and cautions only beyond what a hand can reach [Parncutt et al. 1997, MaxPrac]", () => {
    const wide = explain(C7, [60, 63, 67, 63, 67, 63, 60], [thirdStepsThird]).handFit;
    // Ring to little finger four semitones: beyond the comfortable three, within the possible five.
    expect(wide.stretches[0]).toMatchObject({ fingers: [4, 5], semitones: 4 });
    expect(wide.caution).toBeNull();
    expect(explain(C7, [60, 62, 63]).handFit.caution).toBeNull();
    // Thumb to little finger: fifteen semitones at most.
    const struck = (top: number) =>
      explain(C7, [[60, top]], [], { printed: { 0: "1", 1: "5" } }).handFit.caution;
    expect(struck(75)).toBeNull();
    expect(struck(76)).toContain("licensed clinician or an experienced teacher");
  });

  it("never cautions at a built-in shape played as printed, whatever the hand's size", () => {
    for (const shape of BUILT_IN_SHAPES) {
      const keys = shape.semitones.map((step) => 60 + step);
      const made = line(C7, [...keys, ...keys.slice().reverse()], { beats: 0.5 });
      for (const size of ["small", "middle", "large"] as const) {
        const account = explainHand(made.notes, made.spans, made.chart, {
          shapes: [shape],
          hand: "right",
          size,
        });
        expect(account.handFit.caution, `${shape.name}, ${size}`).toBeNull();
      }
    }
  });

  it("cautions at a shape wider than an octave, by the size of the hand", () => {
    const tenth: HandShape = { ...fiveMajor, name: "tenth", fingers: [1, 2, 5], semitones: [0, 7, 13] };
    const made = line(C7, [60, 67, 73, 67, 60, 67, 73, 67, 60], { beats: 0.5 });
    const caution = (size: "small" | "middle" | "large") =>
      explainHand(made.notes, made.spans, made.chart, { shapes: [tenth], hand: "right", size }).handFit
        .caution;
    expect(caution("middle")).not.toBeNull();
    expect(caution("large")).toBeNull();
  });

  it("is the same for the same notes", () => {
    const again = () => JSON.stringify(explain(BLUES, [60, 62, 63, 64, 67, 69, 70, 61, 62]).handFit);
    expect(again()).toBe(again());
  });
});
