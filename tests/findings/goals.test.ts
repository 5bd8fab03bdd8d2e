import { describe, expect, it } from "vitest";
import { type Goal, goalSchema } from "../../src/account.ts";
import { chooseFindings, findFindings, withEdits } from "../../src/findings/index.ts";
import { accountOf, type Over } from "./account-builder.ts";
import { handFit, motif, occurrence, talk } from "./cases/case-kit.ts";

const said = (check: unknown, over: Over = {}, text = "What we agreed") => {
  const goals = [goalSchema.parse({ text, check }) as Goal];
  return findFindings(accountOf({ notes: talk(), over: { ...over, options: { goals } } }))[0]!;
};

describe("a teacher's goal", () => {
  it("comes before everything else, in the teacher's words", () => {
    const finding = said({ kind: "rests", least: 0.2 }, { rhythm: { rests: 0.3 } }, "Leave room");
    expect(finding).toMatchObject({
      id: "goal-1",
      kind: "works",
      heading: "phrasing and shape",
      practice: null,
    });
    expect(finding.text).toMatch(/^Goal: “Leave room”\. Reached: about a third of the time is rest/);
  });

  it("that is not reached leads to an exercise", () => {
    const finding = said({ kind: "rests", least: 0.4 }, { rhythm: { rests: 0.3 } });
    expect(finding).toMatchObject({ kind: "practise", practice: { kind: "rests" } });
    expect(finding.text).toContain("On the way");
  });

  it("in words only is left to teacher and student", () => {
    expect(said(null, {}, "Enjoy it")).toMatchObject({ kind: "notice", practice: null });
  });

  it("of a placement on the IV chord counts the notes there", () => {
    const placement = (firstNote: number, chord: string) => ({
      id: `h${firstNote}`,
      shape: "third-and-steps",
      anchorPitch: 65,
      anchorFinger: 2 as const,
      anchorDegree: "5" as const,
      chord,
      chorus: 1,
      bar: 5,
      beat: 1,
      firstNote: `n${firstNote}`,
      lastNote: `n${firstNote + 4}`,
      notes: 5,
      shift: null,
      fitsChord: true,
    });
    // The fourth phrase starts on beat 19: bar 5, Bb7, the IV of F. The first stands on F7.
    const check = { kind: "placement", anchorDegree: "5", numeral: "IV", least: 4 };
    expect(said(check, { placements: [placement(16, "Bb7")] })).toMatchObject({ kind: "works" });
    expect(said(check, { placements: [placement(1, "F7")] }).kind).toBe("practise");
  });

  it.each([
    [
      "motif",
      { kind: "motif", least: 3 },
      {
        motifs: [
          motif(
            4,
            [1, 11, 21].map((n) => occurrence(n, 4)),
          ),
        ],
      },
      {},
    ],
    [
      "slides",
      { kind: "slides", least: 1 },
      handFit({ slides: { taken: [{ from: "n1", to: "n2", idiomatic: true }], missed: [], possible: 1 } }),
      {},
    ],
    ["answers", { kind: "answers", least: 0.1 }, { phrases: [{}, { answers: "p1" }] }, {}],
    ["range", { kind: "range", least: 7 }, {}, null],
    ["runs", { kind: "runs", most: 0 }, {}, null],
  ])("of %s is reached by a take that shows it", (_, check, over, without) => {
    expect(said(check, over)).toMatchObject({ id: "goal-1", kind: "works" });
    if (without !== null) expect(said(check, without).kind).toBe("practise");
  });

  it("of guide tones says how many changes were met", () => {
    expect(said({ kind: "guide tones", least: 0.5 }).text).toMatch(/not once in \d+ changes/);
  });
});

const finding = (id: string, part: object) => ({
  id,
  heading: "range" as const,
  kind: "works" as const,
  weight: 0.5,
  text: id,
  evidence: [],
  bars: [],
  practice: null,
  ...part,
});

describe("choosing", () => {
  it("says three things that work and three to practise, from different headings where it can", () => {
    const all = [
      finding("a", { weight: 0.9 }),
      finding("b", { weight: 0.8 }),
      finding("c", { weight: 0.7 }),
      finding("d", { weight: 0.6, heading: "time and feel" }),
      finding("e", { weight: 0.5, heading: "keyboard technique" }),
      ...["p", "q", "r", "s"].map((id) => finding(id, { kind: "practise" })),
    ];
    const chosen = chooseFindings(all);
    expect(chosen.filter((one) => one.kind === "works").map((one) => one.id)).toEqual(["a", "d", "e"]);
    expect(chosen.filter((one) => one.kind === "practise")).toHaveLength(3);
  });
});

describe("a teacher's edits", () => {
  it("hide, reword and add, and keep the order of the page", () => {
    const page = [finding("a", {}), finding("b", {}), finding("p", { kind: "practise" })];
    const edited = withEdits(page, {
      hidden: ["a"],
      texts: { b: "In my own words." },
      added: [{ heading: "time and feel", kind: "works", text: "You smiled.", evidence: [], bars: [] }],
    });
    expect(edited.map((one) => [one.id, one.text])).toEqual([
      ["b", "In my own words."],
      ["teacher-1", "You smiled."],
      ["p", "p"],
    ]);
  });
});
