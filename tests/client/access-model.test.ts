/** Tokens, links and the audit, without a page. */
import { describe, expect, it } from "vitest";
import * as access from "../../client/access/access-model.ts";
import * as audit from "../../client/access/audit-model.ts";
import type { TokenRow } from "../../server/contract/access.ts";
import type { AuditEntry } from "../../server/contract/audit.ts";

const token = (part: Partial<TokenRow>): TokenRow => ({
  ...{ id: "t1", name: "Mx Example", role: "teacher", scope: ["p1"], reaches: [{ id: "p1", name: "Tilda" }] },
  ...{ createdAt: "2026-03-01T10:00:00Z", endedAt: null, expiresAt: null },
  ...{ mostTakes: null, mostMb: null, takes: 0, megabytes: 0 },
  ...part,
});
const players = [
  { id: "p1", name: "Tilda" },
  { id: "p2", name: "Jonas" },
];
const start = access.opened({ tokens: [token({})], players, corpora: [{ id: "c1", name: "Class" }] });

describe("a token in the making", () => {
  it("needs a name, and somebody to reach where its kind reaches somebody", () => {
    expect(access.missing(start)).toContain("for whom");
    const named = access.drafted(start, { name: " Mx New " });
    expect(access.missing(named)).toContain("players");
    expect(access.missing(access.drafted(named, { role: "researcher" }))).toContain("corpora");
    expect(access.missing(access.drafted(named, { role: "owner" }))).toBeNull();
    const ready = access.drafted(named, { scope: ["p1"], days: 31 });
    expect(access.missing(ready)).toBeNull();
    expect(access.tokenRequest(ready)).toEqual({
      ...{ name: "Mx New", role: "teacher", scope: ["p1"], days: 31, mostTakes: null, mostMb: null },
    });
  });

  it("loses what it reached when its kind is another: players are no corpora", () => {
    const teacher = access.drafted(start, { scope: ["p1", "p2"] });
    expect(access.drafted(teacher, { role: "researcher" }).draft.scope).toEqual([]);
    expect(access.drafted(teacher, { role: "teacher", name: "x" }).draft.scope).toEqual(["p1", "p2"]);
    expect(access.choicesOf(start, "researcher")).toEqual([{ id: "c1", name: "Class" }]);
    expect(access.choicesOf(start, "owner")).toEqual([]);
  });

  it("takes bounds as numbers, and none as what the settings say", () => {
    expect(access.boundMissing({ mostTakes: "2.5", mostMb: "" })).toContain("whole");
    expect(access.boundMissing({ mostTakes: "-1", mostMb: "" })).not.toBeNull();
    expect(access.boundMissing({ mostTakes: "", mostMb: "many" })).toContain("number");
    expect(access.boundMissing({ mostTakes: "0", mostMb: "0.5" })).toBeNull();
    expect(access.reachRequest({ scope: [], mostTakes: " 10 ", mostMb: "" })).toEqual({
      ...{ scope: [], mostTakes: 10, mostMb: null },
    });
  });

  it("is shown this once, and leaves an empty form", () => {
    const made = access.made(access.drafted(start, { name: "Mx New", scope: ["p1"] }), "secret");
    expect(made.fresh).toEqual({ name: "Mx New", token: "secret" });
    expect(made.draft.name).toBe("");
  });
});

describe("tokens as they stand", () => {
  it("are told apart: of people, links, and what opens nothing any more", () => {
    const now = "2026-04-01T00:00:00Z";
    const rows = [
      token({ id: "teacher" }),
      token({ id: "link", role: "reader" }),
      token({ id: "own", role: "student" }),
      token({ id: "ended", endedAt: "2026-03-05T00:00:00Z" }),
      token({ id: "over", role: "reader", expiresAt: "2026-03-31T00:00:00Z" }),
      token({ id: "later", expiresAt: "2026-04-02T00:00:00Z" }),
    ];
    const ids = (list: readonly TokenRow[]) => list.map(({ id }) => id);
    const { people, links, over } = access.grouped(rows, now);
    expect([ids(people), ids(links), ids(over)]).toEqual([
      ["teacher", "later"],
      ["link", "own"],
      ["ended", "over"],
    ]);
  });

  it("are changed from what they reach now, and nothing is half done after it was kept", () => {
    const changing = access.changing(start, token({ mostTakes: 5 }));
    expect(changing.changing).toEqual({ id: "t1", scope: ["p1"], mostTakes: "5", mostMb: "" });
    const more = access.rechanged(changing, { scope: access.chosen(["p1"], "p2", true) });
    expect(more.changing?.scope).toEqual(["p1", "p2"]);
    expect(access.chosen(["p1", "p2"], "p1", false)).toEqual(["p2"]);
    expect(access.readAgain(more, []).changing).toEqual(more.changing);
    expect(access.settled(more).changing).toBeNull();
    expect(access.rechanged(start, { scope: [] })).toBe(start);
  });

  it("say what they keep, until when they were in force, and where it is seen", () => {
    expect(access.keepsWords(token({ takes: 1, megabytes: 0.44, mostTakes: 10 }))).toBe(
      "keeps 1 of at most 10 takes, 0.4 MB",
    );
    expect(
      access.inForce(token({ endedAt: "2026-03-05T00:00:00Z", expiresAt: "2026-04-01T00:00:00Z" })),
    ).toBe("since 1 March 2026, until 5 March 2026");
    expect(access.wayTo("reader", { id: "a b", name: "Solo" })).toBe("#/takes/a%20b");
    expect(access.wayTo("student", { id: "p1", name: "Tilda" })).toBe("#/players/p1");
    expect(access.wayTo("teacher", { id: "p1", name: null })).toBeNull();
  });

  it("say of one player how much of them each opens", () => {
    const reach = (role: TokenRow["role"], takes: number) => ({
      ...{ id: "x", name: "x", role, takes, createdAt: "", expiresAt: null },
    });
    expect(access.reachWords(reach("reader", 1), 3)).toBe("1 of 3 takes, to read");
    expect(access.reachWords(reach("teacher", 3), 3)).toContain("all 3 takes");
    expect(access.reachWords(reach("reader", 1), 1)).toBe("the take, to read");
  });
});

describe("the audit", () => {
  const entry = (part: Partial<AuditEntry>): AuditEntry => ({
    ...{ id: "e1", at: "2026-03-01T10:00:05Z", token: "t1", tokenName: "Mx Example", role: "teacher" },
    ...{ action: "read", method: "get", route: "/takes/:id", what: "A take", about: "k1", aboutName: "Solo" },
    ...{ status: 200, times: 1 },
    ...part,
  });
  const first = audit.openedAt(new URLSearchParams("about=p2&action=read"), { players, tokens: [] });

  it("is asked for by what its address says, and begins anew with another choice", () => {
    expect(audit.auditQuery(first)).toBe("about=p2&action=read");
    const read = audit.pageRead(first, { entries: [entry({})], next: "e1" });
    const more = audit.pageRead(read, { entries: [entry({ id: "e2" })], next: null });
    expect([more.entries.length, more.next, more.reading]).toEqual([2, null, false]);
    const other = audit.choose(more, { action: "" });
    expect([audit.auditQuery(other), other.entries, other.reading]).toEqual(["about=p2", [], true]);
  });

  it("offers what a line was about beside the players", () => {
    const take = audit.pageRead(audit.choose(first, { about: "k1" }), { entries: [entry({})], next: null });
    expect(audit.aboutChoices(take).at(-1)).toEqual({ id: "k1", name: "Solo" });
    expect(audit.aboutChoices(first)).toBe(players);
  });

  it("says who, what and when in words, and leads to what is still there", () => {
    expect(audit.whoWords(entry({}))).toBe("Mx Example (teacher)");
    expect(audit.whoWords(entry({ token: null, role: "owner" }))).toContain("at the machine");
    expect(audit.whoWords(entry({ tokenName: null }))).toContain("gone");
    expect(audit.whatWords(entry({ status: 404 }))).toBe("Was refused: A take");
    expect(audit.whatWords(entry({ action: "write", what: null }))).toBe("Wrote: /takes/:id");
    // A day of Tokyo, which keeps UTC+9 the year round (IANA time zone database).
    expect(audit.timeWords("2026-03-01T20:00:05Z", "Asia/Tokyo")).toBe("2 March 2026, 05:00:05");
    expect(audit.wayTo(entry({}))).toBe("#/takes/k1");
    expect(audit.wayTo(entry({ aboutName: null }))).toBeNull();
    expect(audit.wayTo(entry({ route: "/jobs/:id" }))).toBeNull();
  });
});
