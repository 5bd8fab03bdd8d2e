/** The staff of a take, without a page. */
import { describe, expect, it } from "vitest";
import { indexAccount } from "../../client/shell/account-index.ts";
import * as staff from "../../client/staff/staff-model.ts";
import { sampleAccount } from "./sample-account.ts";

const index = indexAccount(sampleAccount({ choruses: 1 }));

describe("the staff", () => {
  it("has its place on the page while it is engraved, and can be asked for again after it was refused", () => {
    expect([staff.NOT_ASKED, staff.LOADING, staff.ENGRAVING, staff.DRAWN].map(staff.hasRoom)).toEqual([
      ...[false, false, true, true],
    ]);
    expect(staff.notEngraved(new Error("no")).stage).toBe("not asked");
  });

  it("can be read page by page while a long solo is engraved, and says on paper that there is more to come", () => {
    expect(staff.pageStands(3, 26)).toMatchObject({ stage: "drawn", pages: { done: 3, all: 26 } });
    expect(staff.pagesWords(staff.pageStands(3, 26))).toMatch(/^3 of 26 pages are engraved/);
    expect(staff.pageStands(26, 26)).toEqual(staff.DRAWN);
    expect(staff.pagesWords(staff.DRAWN)).toBe("");
  });

  it("lights the notes of the selection, and of what passes the one that sounds before the one pointed at", () => {
    const first = index.solo[0]!.id;
    expect(staff.chosenNotes(index, { selection: { kind: "note", note: first } })).toEqual([first]);
    expect(staff.chosenNotes(index, { selection: { kind: "none" } })).toEqual([]);
    expect(staff.passingNote({ playing: "n1", hover: "n2" })).toEqual(["n1"]);
    expect(staff.passingNote({ playing: null, hover: "n2" })).toEqual(["n2"]);
    expect(staff.passingNote({ playing: null, hover: null })).toEqual([]);
  });

  it("knows a tied note by its first name", () => {
    expect(["n12", "n12-2", "n12-13"].map(staff.soundingNote)).toEqual(["n12", "n12", "n12"]);
  });

  it("is a table too, a row a note; without a beat it says so", () => {
    expect(staff.staffTable(index).rows).toHaveLength(index.solo.length);
    const rubato = indexAccount(sampleAccount({ choruses: 1, rubato: true }));
    expect(staff.staffTable(rubato).rows[0]!.slice(3, 5)).toEqual(["no beat", "no beat"]);
  });
});
