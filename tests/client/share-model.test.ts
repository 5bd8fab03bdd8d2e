/** Links to a take, without a page. */
import { describe, expect, it } from "vitest";
import * as share from "../../client/take/share-model.ts";
import type { ShareRow } from "../../server/contract/access.ts";

const row = { id: "s1", name: "Ada", createdAt: "2026-03-01T10:00:00Z", expiresAt: null } as ShareRow;

describe("links to a take", () => {
  it("are asked for a month unless another time is chosen; without a name the service names them", () => {
    expect(share.shareRequest(share.UNSHARED)).toEqual({ days: 31 });
    expect(share.shareRequest({ ...share.UNSHARED, name: " Ada ", days: null })).toEqual({
      name: "Ada",
      days: null,
    });
  });

  it("show the address of the one just made until one is ended, and empty the field for the next", () => {
    const made = share.shareMade({ ...share.UNSHARED, name: "Ada" }, "https://school.example/s/x");
    expect([made.fresh, made.name]).toEqual(["https://school.example/s/x", ""]);
    expect(share.sharesRead(made, [row]).fresh).not.toBeNull();
    expect(share.shareEnded(made).fresh).toBeNull();
  });

  it("say from when to when they are in force", () => {
    expect(share.inForce(row)).not.toContain("until");
    expect(share.inForce({ ...row, expiresAt: "2026-04-01T10:00:00Z" })).toContain("until");
  });

  it("say where an address reaches this machine only (RFC 6761: localhost and the loopback addresses)", () => {
    for (const here of ["http://localhost:3000/s/x", "http://127.0.0.1/s/x", "http://[::1]:80/s/x"]) {
      expect(share.freshWords(here)).toContain("this machine only");
    }
    expect(share.freshWords("https://school.example/s/x")).not.toContain("this machine");
  });
});
