/** The findings of a take as somebody reads them, without a page. */
import { describe, expect, it } from "vitest";
import * as lesson from "../../client/standalone/lesson-reading.ts";
import { type Lesson, NO_FEEDBACK } from "../../src/findings/lesson.ts";
import { sampleAccount } from "./sample-account.ts";

const analysis = sampleAccount({ choruses: 1 });
const [first] = analysis.findings;
const goal = { ...first!, id: "goal-rests", kind: "practise" } as const;
const asLesson = (findings: Lesson["analysis"]["findings"], feedback = NO_FEEDBACK): Lesson =>
  ({ analysis: { ...analysis, findings }, feedback }) as unknown as Lesson;

describe("a lesson that is read", () => {
  it("waits for the player's own view where the teacher asks for it, once", () => {
    expect(lesson.openedLesson(NO_FEEDBACK).waiting).toBe(false);
    const asked = lesson.openedLesson({ ...NO_FEEDBACK, askFirst: true });
    expect(asked.waiting).toBe(true);
    expect(lesson.openedLesson({ ...NO_FEEDBACK, askFirst: true, asked: true }).waiting).toBe(false);
    expect(lesson.showFindings(lesson.writeOwn(asked, " The form. "))).toMatchObject({
      waiting: false,
      own: "The form.",
    });
  });

  it("shows the goals apart, and every other finding under its kind", () => {
    const read = asLesson([first!, goal]);
    expect(lesson.goalGroup(read)?.findings.map(({ id }) => id)).toEqual(["goal-rests"]);
    expect(lesson.findingGroups(read).map(({ kind, findings }) => [kind, findings.length])).toEqual([
      ["works", 1],
      ["practise", 0],
      ["notice", 0],
    ]);
    expect(lesson.goalGroup(asLesson([first!]))).toBeNull();
  });

  it("leaves out what the teacher hid and says what the teacher wrote", () => {
    const hidden = asLesson([first!], { ...NO_FEEDBACK, hidden: [first!.id] });
    expect(lesson.findingGroups(hidden).flatMap(({ findings }) => findings)).toEqual([]);
    const edited = asLesson([first!], { ...NO_FEEDBACK, edited: { [first!.id]: "Well breathed." } });
    expect(lesson.findingGroups(edited)[0]!.findings[0]!.text).toBe("Well breathed.");
  });

  it("marks the finding whose notes are chosen", () => {
    const read = lesson.openedLesson(NO_FEEDBACK);
    expect(lesson.followSelection(read, { kind: "finding", finding: "f1" }).chosen).toBe("f1");
    expect(lesson.followSelection(read, { kind: "note", note: "n1" }).chosen).toBeNull();
  });
});
