/** A player's own take: their own view comes first, and what they wrote is not lost. */
import { describe, expect, it } from "vitest";
import {
  kept,
  mayRead,
  opened,
  passedBy,
  refused,
  sending,
  toSend,
  unkept,
  written,
} from "../../client/student/own-take-model.ts";
import { feedbackSchema } from "../../server/contract/feedback.ts";

const open = (feedback: object = {}, draft: string | null = null) =>
  opened(feedbackSchema.parse(feedback), draft);

describe("a player's own take", () => {
  it("is read once the own view is kept, or where the player passes by", () => {
    expect(mayRead(open())).toBe(false);
    expect(mayRead(passedBy(open()))).toBe(true);
    expect(mayRead(kept(sending(written(open(), "Room.")), "Room."))).toBe(true);
    expect(mayRead(open({ own: "Room." }))).toBe(true);
  });

  it("cannot be read without writing where the teacher asks for it first", () => {
    const asked = open({ askFirst: true });
    expect(mayRead(passedBy(asked))).toBe(false);
    expect(mayRead(kept(sending(written(asked, "Room.")), "Room."))).toBe(true);
  });

  it("keeps what was written through a refusal, a reload, and while it is sent", () => {
    const lost = refused(sending(written(open(), "Room.")), new Error("x"));
    expect([lost.draft, toSend(lost), unkept(lost)]).toEqual(["Room.", "Room.", true]);
    expect(open({ own: "Old." }, "Newer.").draft).toBe("Newer.");
    const more = kept(written(sending(written(open(), "Room.")), "Room. And rests."), "Room.");
    expect([more.draft, unkept(more), toSend(more)]).toEqual(["Room. And rests.", true, "Room. And rests."]);
    expect(toSend(sending(more))).toBeNull();
    expect(toSend(open())).toBeNull();
  });
});
