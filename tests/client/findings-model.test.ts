/** Reading and editing findings, without a page. */
import { describe, expect, it } from "vitest";
import {
  addRemark,
  findingsOf,
  fold,
  isWaiting,
  keepWording,
  leaveOff,
  leaveWording,
  noted,
  putBack,
  remarksOf,
  shownOf,
  takeOut,
  textOf,
  word,
  writeRemark,
} from "../../client/findings/findings-model.ts";
import { NO_FEEDBACK } from "../../src/findings/lesson.ts";
import { sampleAccount } from "./sample-account.ts";

const analysis = sampleAccount();
const finding = analysis.findings.find((one) => one.kind === "works")!;
const start = findingsOf(NO_FEEDBACK);

describe("the findings as they are read and edited", () => {
  it("unfold a line and fold it again", () => {
    const open = fold(start, finding.id);
    expect(open.open.has(finding.id)).toBe(true);
    expect(fold(open, finding.id).open.has(finding.id)).toBe(false);
    expect(start.open.size).toBe(0);
  });

  it("hold a wording that is half written while others are left off", () => {
    const half = word(start, finding.id, "You leave");
    const other = leaveOff(half, "another");
    expect(other.wordings[finding.id]).toBe("You leave");
    expect(textOf(other, finding)).toBe(textOf(start, finding));
    expect(leaveWording(other, finding.id).wordings).toEqual({});
  });

  it("keep a wording; an empty one and the program's own take it back", () => {
    const kept = keepWording(word(start, finding.id, " Well begun. "), finding);
    expect(textOf(kept, finding)).toBe("Well begun.");
    expect(kept.wordings).toEqual({});
    for (const text of ["  ", finding.text])
      expect(keepWording(word(kept, finding.id, text), finding).notes.edited).toEqual({});
  });

  it("leave a finding off and put it back", () => {
    const off = leaveOff(start, finding.id);
    expect(shownOf(analysis, off, "works")).not.toContain(finding);
    expect(shownOf(analysis, putBack(off, finding.id), "works")).toContain(finding);
  });

  it("add a remark once it is written, and take it out", () => {
    expect(addRemark(writeRemark(start, "notice", "  "), "notice").notes.added).toEqual([]);
    const added = addRemark(writeRemark(start, "notice", "Sit back."), "notice");
    expect(remarksOf(added, "notice")).toEqual([{ kind: "notice", text: "Sit back." }]);
    expect(added.remarks.notice).toBeUndefined();
    expect(remarksOf(takeOut(added, added.notes.added[0]!), "notice")).toEqual([]);
  });

  it("wait for the player where the teacher asked for that", () => {
    const asked = noted(start, { askFirst: true, asked: false });
    expect([isWaiting(start), isWaiting(asked), isWaiting(noted(asked, { asked: true }))]).toEqual([
      false,
      true,
      false,
    ]);
  });
});
