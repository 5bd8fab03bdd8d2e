import { describe, expect, it } from "vitest";
import { ANCHORS, checkOf, GOAL_FORMS, goalText } from "../../client/findings/goal-checks.ts";
import { goalSchema } from "../../src/account.ts";
import { DEGREES } from "../../src/chart/index.ts";

const placement = { anchorDegree: "5", numeral: "IV7" };

describe("a goal that a teacher sets on the page", () => {
  it.each(GOAL_FORMS.filter((form) => form.kind !== "words"))(
    "of $kind is one that the service takes, with words of its own",
    ({ kind, amount }) => {
      const check = checkOf(kind, amount!.start, placement)!;
      const goal = goalSchema.parse({ text: goalText(check), check });
      expect(goal.check).toEqual(check);
      expect(goal.text).not.toMatch(/undefined|NaN|null/);
    },
  );

  it("says the second placement on the IV chord as a teacher does", () => {
    expect(goalText(checkOf("placement", 6, { anchorDegree: "5", numeral: "IV" })!)).toBe(
      "second placement on the IV chord",
    );
    expect(goalText(checkOf("placement", 6, { anchorDegree: "1", numeral: null })!)).toBe(
      "first placement on every chord",
    );
    for (const [degree] of ANCHORS) expect(DEGREES).toContain(degree);
  });

  it("in words only is not checked, and a number that is none is refused", () => {
    expect(checkOf("words", Number.NaN, placement)).toBeNull();
    expect(() => checkOf("rests", Number.NaN, placement)).toThrow(RangeError);
    expect(checkOf("rests", 250, placement)).toEqual({ kind: "rests", least: 1 });
  });
});
