/** A player's page without a page: what is written stays until it is sent, and says what it would do before it does. */
import { describe, expect, it } from "vitest";
import * as model from "../../client/player/player-model.ts";
import type { PlayerPage } from "../../server/contract/player-page.ts";

const page: PlayerPage = {
  ...{ id: "p", name: "Ada", note: "", usual: { handSize: "small", shapes: ["third-and-steps"] } },
  ...{ consent: null, lenses: [{ since: "2026-03-01", lens: null }], notes: [] },
};
const start = model.opened({
  ...{ page, takes: [], lens: null, others: [{ id: "q", name: "Adda" }], own: [] },
  ...{ shapeNames: ["third-and-steps", "minor pentatonic"], today: "2026-04-01" },
});

describe("a player's page", () => {
  it("begins with what is held", () => {
    expect(start.draft).toMatchObject({ name: "Ada", handSize: "small", since: "2026-04-01", lens: "" });
    expect(model.lensChoices(start).length).toBe(11);
  });

  it("brings back through a reload what was not sent, and tells where it stands", () => {
    expect(model.unsent(start)).toBeNull();
    const left = model.unsent(model.written(start, { note: "Good week.", consentBy: "father" }));
    expect(left).toEqual({ note: "Good week.", consentBy: "father" });
    const again = model.opened(start, left);
    expect(again.draft).toMatchObject({ name: "Ada", note: "Good week.", consentBy: "father" });
    expect(again.back).toEqual(["consentBy", "note"]);
    const noted = { ...page, consent: { date: "2026-04-01", by: "father" } };
    expect(model.unsent(model.kept(again, noted, ["consentBy", "consentDate"]))).toEqual({
      note: "Good week.",
    });
  });

  it("offers nothing that has nothing to send", () => {
    expect(model.renaming(start)).toBeNull();
    expect(model.addingNote(start)).toBeNull();
    expect(model.notingConsent(start)).toBeNull();
    expect(model.merging(start)).toBeNull();
  });

  it("sends what was written", () => {
    const next = model.shapeTaken(
      model.written(start, {
        name: " Ada B. ",
        note: "Good week.",
        consentBy: "father",
        lens: "register",
        into: "q",
      }),
      "minor pentatonic",
      true,
    );
    expect(model.renaming(next)).toMatchObject({ method: "PATCH", body: { name: "Ada B." } });
    expect(model.addingNote(next)!.body).toEqual({ date: "2026-04-01", text: "Good week." });
    expect(model.notingConsent(next)!.body).toEqual({ consent: { date: "2026-04-01", by: "father" } });
    expect(model.settingLens(next)!.body).toEqual({ lens: "register", since: "2026-04-01" });
    expect(model.keepingUsual(next).body).toEqual({
      usual: { handSize: "small", shapes: ["third-and-steps", "minor pentatonic"] },
    });
    expect(model.merging(next)!.body).toEqual({ into: "q" });
  });

  it("keeps everything written when a call is refused, and all but what was sent when it is done", () => {
    const written = model.written(start, { note: "Half a note", name: "Other" });
    const refused = model.refused(model.sending(written, "…"), new Error("no"));
    expect(refused).toMatchObject({ sending: null, draft: { note: "Half a note", name: "Other" } });
    const kept = model.kept(refused, { ...page, notes: [{ id: "n", date: "2026-04-01", text: "x" }] }, [
      "note",
    ]);
    expect(kept.draft).toMatchObject({ note: "", name: "Other" });
  });

  it("says what a deletion takes along and what a merger means before either is done", () => {
    expect(model.deletionWords(start)).toMatch(
      /^Deleting Ada takes along no takes .* half an hour .* Export it first/,
    );
    expect(model.mergeWords(model.written(start, { into: "q" }))).toMatch(/go to Adda.*cannot be undone/);
    expect(model.asked(start, "delete").asks).toBe("delete");
  });
});
