/** Feedback on its way to the server: lost network, two windows, a window that was closed. */
import { describe, expect, it } from "vitest";
import {
  changed,
  givenUp,
  isKept,
  type Keeping,
  keepingOf,
  kept,
  met,
  refused,
  sent,
  settled,
  takenOver,
  toSend,
  unkept,
  written,
} from "../../client/findings/keeping-model.ts";
import { type Feedback, NO_FEEDBACK } from "../../src/findings/lesson.ts";

const base: Feedback = { ...NO_FEEDBACK, version: 2 };
const write = (state: Keeping, part: Partial<Feedback>) => changed(state, { ...state.notes, ...part });
const start = keepingOf(base);

describe("feedback on its way", () => {
  it("is sent with the version that it was read with, once, and is kept when the answer comes", () => {
    const mine = write(start, { own: "Mine." });
    expect(toSend(mine)).toEqual({ ...base, own: "Mine." });
    const away = sent(mine);
    expect(toSend(away)).toBeNull();
    expect(isKept(away)).toBe(false);
    const done = kept(away, { ...base, own: "Mine.", version: 3 });
    expect(isKept(done)).toBe(true);
    expect(unkept(done)).toBeNull();
  });

  it("holds what is written while something is on its way, and sends it next with the new version", () => {
    const more = write(sent(write(start, { own: "Mine." })), { signed: "A" });
    const answered = kept(more, { ...base, own: "Mine.", version: 3 });
    expect(toSend(answered)).toEqual({ ...base, own: "Mine.", signed: "A", version: 3 });
  });

  it("is neither kept nor lost when it is refused, and can be sent again", () => {
    const mine = write(start, { own: "Mine." });
    const back = refused(sent(mine), new Error("no network"));
    expect(isKept(back)).toBe(false);
    expect(toSend(back)).toEqual(toSend(mine));
    expect(unkept(back)).toMatchObject({ base, notes: { own: "Mine." } });
    expect(givenUp(back).notes).toEqual(base);
  });

  it("joins what stands meanwhile, and sends only what nobody else wrote differently", () => {
    const mine = write(start, { own: "Mine.", signed: "A" });
    const both = met(sent(mine), { ...base, own: "Theirs.", version: 3 });
    expect(both.differing).toEqual([{ place: { field: "own" }, theirs: "Theirs." }]);
    expect(both.notes).toMatchObject({ own: "Mine.", signed: "A" });
    expect(toSend(both)).toMatchObject({ own: "Theirs.", signed: "A", version: 3 });
    const partly = kept(sent(both), { ...base, own: "Theirs.", signed: "A", version: 4 });
    expect(toSend(partly)).toBeNull();
    expect(isKept(partly)).toBe(false);
    // A third side meanwhile: what differs is what stands now.
    const third = met(partly, { ...base, own: "A third.", signed: "A", version: 5 });
    expect(third.differing).toEqual([{ place: { field: "own" }, theirs: "A third." }]);
    const chosen = settled(third, { field: "own" }, "Mine.");
    expect(toSend(chosen)).toMatchObject({ own: "Mine.", version: 5 });
    expect(toSend(settled(third, { field: "own" }, "A third."))).toBeNull();
  });

  it("passes over an answer that is older than what was kept from here", () => {
    const done = kept(sent(write(start, { own: "Mine." })), { ...base, own: "Mine.", version: 3 });
    expect(met(done, base)).toBe(done);
  });

  it("takes over what a closed window left, half-written words with it", () => {
    const half = { wordings: { "finding-1": "You lea" }, remarks: {} };
    const left = unkept(written(write(start, { own: "Before the fall." }), half))!;
    const next = takenOver(keepingOf({ ...base, signed: "B", version: 3 }), left);
    expect(next.half).toEqual(half);
    expect(toSend(next)).toMatchObject({ own: "Before the fall.", signed: "B", version: 3 });
    // What had arrived although no answer came is nothing new.
    expect(toSend(takenOver(keepingOf({ ...base, own: "Before the fall.", version: 3 }), left))).toBeNull();
  });

  it("takes over what two closed windows left, and tells where they differ", () => {
    const left = (own: string) => unkept(write(start, { own }))!;
    const both = takenOver(takenOver(start, left("One.")), left("Two."));
    expect(both.notes.own).toBe("One.");
    expect(both.differing).toEqual([{ place: { field: "own" }, theirs: "Two." }]);
  });

  it("is to outlive the window while a word is half written, and no longer", () => {
    const half = written(start, { wordings: {}, remarks: { notice: "Sit" } });
    expect(unkept(half)).toMatchObject({ half: { remarks: { notice: "Sit" } } });
    expect(unkept(written(half, { wordings: {}, remarks: {} }))).toBeNull();
    expect(toSend(half)).toBeNull();
  });
});
