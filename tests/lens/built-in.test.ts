/** Each built-in lens beside a take that reaches it, one that falls just short, and one that is far from it. */
import { describe, expect, it } from "vitest";
import type { AccountNote, Lens } from "../../src/account.ts";
import { checkLens, LENS_MEASURES, LENSES, throughLens } from "../../src/lens/index.ts";
import { accountOf, type Case, eighths, type Written } from "../findings/account-builder.ts";
import {
  barByBar,
  first,
  handFit,
  motif,
  occurrence,
  rhythm,
  swing,
  talk,
  timing,
} from "../findings/cases/case-kit.ts";

interface LensCases {
  readonly reached: Case;
  readonly short: Case;
  readonly far: Case;
}

/** Bars of the quick-change blues in which the chord has just changed. */
const CHANGES = [1, 2, 3, 5, 7, 9, 10, 11, 12];

/** The first `count` changes are met with a third. */
const changesMet = (count: number): Case => ({
  notes: barByBar((bar, note) =>
    note === 0 && CHANGES.includes(bar) && CHANGES.indexOf(bar) < count ? { guideTone: true } : {},
  ),
});

type Labels = Partial<Pick<AccountNote, "role" | "lineRole" | "strength" | "target">>;

/** Forty notes, `some` of which carry one set of labels and `others`, before them, another. */
const labelled = (some: number, labels: Labels, others = 0, more: Labels = {}): Case => ({
  notes: first(first(talk(), some + others, labels), others, { ...labels, ...more }),
});

/** Eight phrases; those of the first `blue` begin with the blue third of F7, and of the first `home` go on to the third. */
const blueThirds = (blue: number, home: number): Case => ({
  notes: Array.from({ length: 8 }, (_, k): Written[] =>
    eighths(k * 6, k < blue ? [68, k < home ? 69 : 65, 72, 70] : [65, 69, 72, 70], (i) =>
      i === 0 && k < blue
        ? { role: "blue", degree: "b3" }
        : i === 1 && k < home
          ? { role: "third", degree: "3" }
          : {},
    ),
  ).flat(),
});

const enclosed = (targets: number, approaches: number): Case => ({
  notes: talk(8, (k, i) =>
    k < targets && i < 2
      ? { lineRole: "enclosure", target: `n${k * 5 + 3}` }
      : i === 4 && k < approaches
        ? { lineRole: "approach" }
        : {},
  ),
});

/** Forty notes on F7, of which the first `inBoth` lie in a shape that is played in both its places. */
const inPlaces = (inBoth: number): Case => {
  const place = (id: string, shape: string, from: number, to: number) => ({
    ...{ id, shape, anchorPitch: 65, anchorFinger: 2 as const, anchorDegree: "1" as const, chord: "F7" },
    ...{ chorus: 1, bar: 1, beat: 1, firstNote: `n${from}`, lastNote: `n${to}`, notes: to - from + 1 },
    ...{ shift: null, fitsChord: true },
  });
  const used = (shape: string, anchorDegree: "1" | "5", notes: number) => ({
    ...{ shape, anchorDegree, anchor: "F", notes },
  });
  return {
    notes: talk(),
    over: {
      placements: [
        place("h1", "third-and-steps", 1, inBoth),
        place("h2", "minor pentatonic", inBoth + 1, 40),
      ],
      handFit: {
        byChord: [
          {
            chord: "F7",
            share: 1,
            used: [
              used("third-and-steps", "1", inBoth - 4),
              used("third-and-steps", "5", 4),
              used("minor pentatonic", "1", 40 - inBoth),
            ],
            unused: [],
          },
        ],
      },
    },
  };
};

/** A fingering of `fingers` notes at `places` heights. */
const fingering = (places: number, fingers: (1 | 2 | 3 | 4 | 5)[] = [2, 4, 1, 3, 2]): Case => ({
  notes: Array.from({ length: 8 }, (_, k) => eighths(k * 6, [60 + k, 64 + k, 58 + k, 62 + k, 60 + k])).flat(),
  over: {
    // Shapes of the hand were chosen for the take, so that it is known to be played on keys.
    options: { shapes: ["third-and-steps"] },
    ...handFit({
      moved: [{ firstNotes: Array.from({ length: places }, (_, k) => `n${k * 5 + 1}`), fingers }],
    }),
  },
});

/** An idea in these bars of the one chorus. */
const ideaIn = (bars: readonly number[]): Case => ({
  notes: talk(),
  over: {
    motifs: [
      motif(
        4,
        bars.map((bar, k) => occurrence(k * 5 + 1, 4, { bar })),
      ),
    ],
  },
});

/** Two choruses, the second higher; `top` is the highest note of all. */
const choruses = (higher: number, top = 60): Case => ({
  choruses: 2,
  notes: [
    ...eighths(
      0,
      Array.from({ length: 12 }, (_, i) => 60 + (i % 3)),
    ),
    ...eighths(48, [...Array.from({ length: 12 }, (_, i) => 60 + higher + (i % 3)), top]),
  ],
});

/** `answering` of eight phrases answer, and so much of the time is rest. */
const talking = (answering: number, rests: number): Case => ({
  notes: talk(),
  over: {
    ...rhythm({ rests }),
    phrases: Array.from({ length: 8 }, (_, k) => (k > 0 && k <= answering ? { answers: `p${k}` } : {})),
  },
});

const feel = (spread: number, ms: number): Case => ({
  notes: talk(),
  over: rhythm({ swing: swing(2 - spread, 2, 2 + spread), timing: timing(-ms / 2, 0, ms / 2) }),
});

const CASES: Readonly<Record<string, LensCases>> = {
  // 20 of 40 are half; 19 are not; 11 are under three in ten.
  "one-shape-both-places": { reached: inPlaces(20), short: inPlaces(19), far: inPlaces(11) },
  "same-fingering-moved": { reached: fingering(3), short: fingering(2), far: fingering(3, [2, 4, 1, 3]) },
  "blue-third": { reached: blueThirds(3, 2), short: blueThirds(3, 1), far: blueThirds(5, 0) },
  // None of 40; one of 40 is 2.5 %; two are 5 %.
  "avoid-note": {
    reached: labelled(0, {}),
    short: labelled(1, { role: "avoid", strength: 1, lineRole: "free" }),
    far: labelled(2, { role: "avoid", strength: 1, lineRole: "free" }),
  },
  // The seam of the form counts for none: of nine changes three are over 30 %, two are not, one is under 20 %.
  "guide-tones": { reached: changesMet(3), short: changesMet(2), far: changesMet(1) },
  "rests-and-answers": { reached: talking(1, 0.25), short: talking(0, 0.4), far: talking(3, 0.1) },
  // Bars 1 to 8 of 12 are two thirds; 1 to 6 are half; two notes of an idea in one bar are no chorus.
  "one-idea": { reached: ideaIn([1, 4, 8]), short: ideaIn([1, 3, 6]), far: ideaIn([1]) },
  register: { reached: choruses(7, 79), short: choruses(7, 78), far: choruses(3, 90) },
  "swing-and-placing": { reached: feel(0.44, 60), short: feel(0.46, 60), far: feel(0.8, 20) },
  "approach-and-enclosure": { reached: enclosed(2, 3), short: enclosed(2, 2), far: enclosed(0, 8) },
  "outside-and-back": {
    reached: labelled(1, { role: "outside", lineRole: "free" }, 3, { lineRole: "approach" }),
    short: labelled(2, { role: "outside", lineRole: "free" }, 2, { lineRole: "approach" }),
    far: labelled(1, { role: "outside", lineRole: "approach" }),
  },
};

const through = (lens: Lens, written: Case) => throughLens(accountOf(written), lens, null);

describe("the built-in lenses", () => {
  it.each(LENSES.map((lens) => [lens.id, lens] as const))("%s: reached, just short, and far", (id, lens) => {
    const { reached, short, far } = CASES[id]!;
    expect([reached, short, far].map((one) => through(lens, one).state)).toEqual([
      "reached",
      "partly",
      "not yet",
    ]);
  });

  it("are whole by the rules for a teacher's own, and ask each number of the list at least once or leave it to her", () => {
    for (const lens of LENSES) expect(checkLens(lens)).toBe(lens);
    expect(new Set(LENSES.map(({ id }) => id)).size).toBe(11);
    const asked = new Set(LENSES.flatMap(({ asks }) => asks.map(({ measure }) => measure)));
    const left = LENS_MEASURES.map(({ id }) => id).filter((id) => !asked.has(id));
    expect(left).toEqual(["slides", "longest-phrase"]);
  });

  it("say where it can be heard, and where it was open", () => {
    const lens = LENSES.find(({ id }) => id === "guide-tones")!;
    const [ask] = through(lens, changesMet(4)).asks;
    expect(ask!.bars.map(({ bar }) => bar)).toEqual([1, 2, 3, 5]);
    expect(ask!.open.length).toBeGreaterThan(0);
    expect(ask!.text).toMatch(
      /^Changes met with a third or a seventh: \d+ %, \d of \d changes \(asked for: at least 30 %\)\.$/,
    );
  });

  it("are silent on what a take does not tell", () => {
    const lens = LENSES.find(({ id }) => id === "swing-and-placing")!;
    const told = through(lens, { notes: talk() });
    expect(told.state).toBe("cannot be told");
    expect(told.text).toContain("fewer than 12 pairs of eighths");
    // Even eighths have no swing to settle.
    const even = through(lens, { notes: talk(), over: rhythm({ swing: swing(1, 1.1, 1.2) }) });
    expect(even.asks[0]!.text).toContain("played even");
  });

  it("of fingers say nothing where nothing tells that keys were played", () => {
    const lens = LENSES.find(({ id }) => id === "same-fingering-moved")!;
    const { notes, over } = fingering(3);
    const unknown = through(lens, { notes, over: { ...over, options: { shapes: null } } });
    expect(unknown).toMatchObject({ state: "cannot be told" });
    expect(unknown.text).toContain("nothing tells that it was played on a keyboard");
  });

  it("of the harmony say nothing while the chart is in question", () => {
    const lens = LENSES.find(({ id }) => id === "guide-tones")!;
    const chartFit = { verdict: "does not fit" as const, score: -1, better: [] };
    const asked = through(lens, { ...changesMet(5), over: { alignment: { chartFit } } });
    expect(asked).toMatchObject({ state: "cannot be told" });
    const over = { alignment: { chartFit }, options: { chartConfirmed: true } };
    expect(through(lens, { ...changesMet(5), over }).state).toBe("reached");
  });
});

describe("a teacher's own lens", () => {
  const own: Lens = {
    id: "short-phrases",
    name: "Short phrases",
    about: "Nothing longer than a breath.",
    asks: [{ measure: "longest-phrase", least: null, most: 3, partly: 5 }],
    said: { reached: "Short.", partly: "Nearly.", notYet: "Long." },
    exercises: [{ kind: "rests", title: "Breathe", text: "Two bars on, two bars off." }],
  };

  it("is made by choosing measures and bounds", () => {
    expect(checkLens(own)).toBe(own);
    // Five eighths at 120 last 1.25 s.
    expect(through(own, { notes: talk() })).toMatchObject({ state: "reached", text: "Short." });
  });

  it.each([
    ["no bound", { least: null, most: null, partly: 1 }, "asks.0"],
    ["two bounds", { least: 1, most: 3, partly: 2 }, "asks.0"],
    ["a bound below zero", { least: null, most: -1, partly: 1 }, "asks.0"],
    ["partly beyond the bound", { least: null, most: 3, partly: 2 }, "asks.0.partly"],
  ])("with %s is refused with its place", (_, bounds, where) => {
    const lens = { ...own, asks: [{ measure: "longest-phrase" as const, ...bounds }] };
    expect(() => checkLens(lens)).toThrow(expect.objectContaining({ where }));
  });

  it("with an exercise of no kind, or the same number twice, is refused", () => {
    expect(() => checkLens({ ...own, exercises: [{ kind: "juggling", title: "a", text: "b" }] })).toThrow(
      /juggling/,
    );
    expect(() => checkLens({ ...own, asks: [own.asks[0]!, own.asks[0]!] })).toThrow(/twice/);
  });
});
