/** A player's own take: their own view comes first, and what they wrote is not lost. */
import { describe, expect, it } from "vitest";
import {
  kept,
  mayRead,
  met,
  type OwnDraft,
  opened,
  passedBy,
  refused,
  sending,
  settled,
  toSend,
  unkept,
  written,
} from "../../client/student/own-take-model.ts";
import { feedbackSchema } from "../../server/contract/feedback.ts";

const standing = (feedback: object = {}) => feedbackSchema.parse({ version: 1, ...feedback });
const open = (feedback: object = {}, left: OwnDraft | null = null) => opened(standing(feedback), left);
const answer = (own: string, version = 2) => standing({ own, asked: true, version });

describe("a player's own take", () => {
  it("is read once the own view is kept, or where the player passes by", () => {
    expect(mayRead(open())).toBe(false);
    expect(mayRead(passedBy(open()))).toBe(true);
    expect(mayRead(kept(sending(written(open(), "Room.")), answer("Room.")))).toBe(true);
    expect(mayRead(open({ own: "Room." }))).toBe(true);
  });

  it("cannot be read without writing where the teacher asks for it first", () => {
    const asked = open({ askFirst: true });
    expect(mayRead(passedBy(asked))).toBe(false);
    expect(mayRead(kept(sending(written(asked, "Room.")), answer("Room.")))).toBe(true);
  });

  it("keeps what was written through a refusal, a reload, and while it is sent", () => {
    const lost = refused(sending(written(open(), "Room.")), new Error("x"));
    expect([lost.draft, toSend(lost), unkept(lost)]).toEqual(["Room.", "Room.", true]);
    expect(open({ own: "Old." }, { draft: "Newer.", base: standing({ own: "Old." }) })).toMatchObject({
      ...{ draft: "Newer.", theirs: null },
    });
    const more = kept(written(sending(written(open(), "Room.")), "Room. And rests."), answer("Room."));
    expect([more.draft, unkept(more), toSend(more)]).toEqual(["Room. And rests.", true, "Room. And rests."]);
    expect(toSend(sending(more))).toBeNull();
    expect(toSend(open())).toBeNull();
  });

  it("goes on where the teacher kept something meanwhile, and asks where another own view was kept", () => {
    const mine = sending(written(open(), "Room."));
    const signed = met(mine, standing({ version: 2, signed: "A. Teacher" }));
    expect([signed.theirs, toSend(signed), signed.base.version]).toEqual([null, "Room.", 2]);

    const twice = met(mine, answer("Rests."));
    expect([twice.draft, twice.theirs, toSend(twice)]).toEqual(["Room.", "Rests.", null]);
    expect(toSend(settled(twice, twice.draft))).toBe("Room.");
    const taken = settled(twice, "Rests.");
    expect([toSend(taken), unkept(taken), mayRead(taken)]).toEqual([null, false, true]);
    // The same words in both windows are no conflict.
    expect(met(mine, answer("Room.")).theirs).toBeNull();
  });

  it("asks too where it was written before a reload, upon what stands no longer", () => {
    const again = open({ own: "Rests.", version: 2 }, { draft: "Room.", base: standing() });
    expect([again.draft, again.theirs]).toEqual(["Room.", "Rests."]);
  });
});
