/**
 * Feedback that was changed in two places, joined. What is expected follows from what a three-way merge is: a change of
 * one side is kept, the same change of both is one change, two different changes of one text are told [practice].
 */
import { describe, expect, it } from "vitest";
import { type Feedback, NO_FEEDBACK } from "../../src/findings/lesson.ts";
import { mergeFeedback, sameFeedback, textAt, withText } from "../../src/findings/merge-feedback.ts";

const base: Feedback = {
  ...NO_FEEDBACK,
  hidden: ["a"],
  edited: { "finding-1": "You leave room." },
  added: [{ kind: "works", text: "The ending." }],
  own: "I heard the form.",
  version: 4,
};
const remark = (text: string) => ({ kind: "notice" as const, text });
const merged = (mine: Partial<Feedback>, theirs: Partial<Feedback>) =>
  mergeFeedback(base, { ...base, ...mine }, { ...base, ...theirs, version: 5 });

describe("feedback changed in two places at once", () => {
  it("keeps what only one side changed, field by field, whichever side it was", () => {
    const mine = { signed: "M. Example", hidden: ["a", "b"], askFirst: true };
    const theirs = { own: "I lost bar 9.", edited: {}, added: [...base.added, remark("Sit back.")] };
    const expected = { ...base, ...mine, ...theirs, version: 5 };
    expect(merged(mine, theirs)).toEqual({ feedback: expected, differing: [] });
    expect(merged(theirs, mine)).toEqual({ feedback: expected, differing: [] });
  });

  it("keeps remarks of both sides, and takes out what either took out", () => {
    const { feedback } = merged(
      { added: [remark("Mine.")], hidden: [] },
      { added: [...base.added, remark("Theirs.")], hidden: ["a", "c"] },
    );
    expect(feedback.added.map(({ text }) => text)).toEqual(["Theirs.", "Mine."]);
    expect(feedback.hidden).toEqual(["c"]);
  });

  it("makes a change that arrived, and whose answer was lost, not twice", () => {
    const change = { added: [...base.added, remark("Once.")], signed: "M. Example", hidden: ["a", "b"] };
    const { feedback, differing } = merged(change, change);
    expect(feedback).toEqual({ ...base, ...change, version: 5 });
    expect(differing).toEqual([]);
  });

  it("tells each text that both wrote differently, and holds mine there", () => {
    const { feedback, differing } = merged(
      { own: "Mine.", edited: { "finding-1": "Mine too." }, signed: "A" },
      { own: "Theirs.", edited: {}, signed: "B" },
    );
    expect([feedback.own, feedback.edited["finding-1"], feedback.signed]).toEqual([
      "Mine.",
      "Mine too.",
      "A",
    ]);
    expect(differing).toEqual([
      { place: { field: "own" }, theirs: "Theirs." },
      { place: { field: "signed" }, theirs: "B" },
      { place: { field: "edited", finding: "finding-1" }, theirs: "" },
    ]);
  });

  it("loses no remark, whatever three lists of remarks it is given", () => {
    const lists = [[], ["x"], ["y"], ["x", "y"], ["y", "x", "z"]].map((texts) => texts.map(remark));
    for (const before of lists)
      for (const here of lists)
        for (const there of lists) {
          const from = { ...base, added: before };
          const { feedback } = mergeFeedback(from, { ...from, added: here }, { ...from, added: there });
          const texts = (list: readonly { readonly text: string }[]) => list.map(({ text }) => text);
          for (const text of ["x", "y", "z"]) {
            const [was, mine, theirs] = [before, here, there].map((list) => texts(list).includes(text));
            expect(texts([...feedback.added]).includes(text)).toBe(mine === was ? theirs : mine);
          }
        }
  });
});

describe("a place of feedback", () => {
  it("has a text, and an empty wording is none", () => {
    const place = { field: "edited", finding: "finding-1" } as const;
    expect(textAt(base, place)).toBe("You leave room.");
    expect(withText(base, place, "").edited).toEqual({});
    expect(textAt(withText(base, { field: "own" }, "New."), { field: "own" })).toBe("New.");
  });

  it("is the same whatever the version and the order of ids", () => {
    expect(sameFeedback({ ...base, hidden: ["a", "b"] }, { ...base, hidden: ["b", "a"], version: 9 })).toBe(
      true,
    );
    expect(sameFeedback(base, { ...base, asked: true })).toBe(false);
  });
});
