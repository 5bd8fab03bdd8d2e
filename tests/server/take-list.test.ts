/** Takes found by typing, sorted, a page at a time. */
import { createHash } from "node:crypto";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { RunningServer } from "../../server/start.ts";
import { callsTo } from "./calls.ts";
import { ARPEGGIOS, FOUR_BARS, serve, smallMidi, takeForm } from "./harness.ts";

let server: RunningServer;
const { call, json } = callsTo(() => server);

const TAKES = [
  { title: "Rain on tin", player: "Ada", date: "2026-03-01", tags: "spring" },
  { title: "100%_sure", player: "Ada", date: "2026-05-12", tags: "recital, second try" },
  { title: "Little river", player: "Bo", date: "2026-04-07", tags: "" },
  { title: "Undated", player: "", date: "", tags: "spring" },
];
const file = smallMidi(ARPEGGIOS);

beforeAll(async () => {
  server = await serve();
  for (const take of TAKES) {
    await call("/takes", { method: "POST", body: takeForm({ chart: FOUR_BARS, ...take }, file) });
  }
});
afterAll(() => server.close());

const titles = async (query: string) =>
  ((await json(`/takes?${query}`)).takes as { title: string }[]).map(({ title }) => title);

describe("takes found by typing", () => {
  it.each([
    ["ada", ["100%_sure", "Rain on tin"]],
    ["RIVER", ["Little river"]],
    ["ada tin", ["Rain on tin"]],
    ["2026-04", ["Little river"]],
    ["12 may", ["100%_sure"]],
    ["spring", ["Rain on tin", "Undated"]],
    ["%", ["100%_sure"]],
    ["nobody", []],
    ["  ", ["100%_sure", "Little river", "Rain on tin", "Undated"]],
  ])("%s", async (typed, found) => {
    expect(await titles(new URLSearchParams({ q: typed }).toString())).toEqual(found);
  });

  it("are sorted by day, title and player, with what is missing last", async () => {
    expect(await titles("sort=oldest")).toEqual(["Rain on tin", "Little river", "100%_sure", "Undated"]);
    expect(await titles("sort=title")).toEqual(["100%_sure", "Little river", "Rain on tin", "Undated"]);
    expect(await titles("sort=player")).toEqual(["100%_sure", "Rain on tin", "Little river", "Undated"]);
  });

  it("come with the file that they were read from", async () => {
    const source = createHash("sha256").update(file).digest("hex");
    expect(await titles(`source=${source}`)).toHaveLength(TAKES.length);
    expect(await titles(`source=${"0".repeat(64)}`)).toEqual([]);
    expect((await call("/takes?source=abc")).status).toBe(400);
  });
});

describe("a page of takes", () => {
  it.each(["newest", "oldest", "title", "player"])(
    "goes on where the last one ended, by %s",
    async (sort) => {
      const all = await titles(`sort=${sort}`);
      const seen: string[] = [];
      for (let after = ""; ; ) {
        const page = await json(`/takes?sort=${sort}&limit=1${after}`);
        expect(page.total).toBe(TAKES.length);
        seen.push(...page.takes.map(({ title }: { title: string }) => title));
        if (page.next === null) break;
        after = `&after=${page.next}`;
      }
      expect(seen).toEqual(all);
    },
  );

  it("goes on after a take that was deleted meanwhile, and refuses one that never was", async () => {
    const first = await json("/takes?limit=1");
    await call(`/takes/${first.next}`, { method: "DELETE" });
    expect(await titles(`limit=1&after=${first.next}`)).toEqual(["Little river"]);
    await call(`/takes/${first.next}/restore`, { method: "POST" });
    const refused = await call("/takes?after=nothing");
    expect(refused.status).toBe(400);
    expect(await refused.json()).toMatchObject({ code: "no-such-page", where: "query.after" });
    expect((await call("/takes?limit=0")).status).toBe(400);
  });
});

describe("ten thousand takes", () => {
  it("are counted whole and given by the page", async () => {
    await server.services.database.query(
      `insert into takes (id, source, file_name, player_id, title, played_on, options, analysis)
       select 'many-' || n, source, file_name, player_id, 'Take ' || n, date '2000-01-01' + n, options, analysis
       from (select * from takes where title = 'Rain on tin') one, generate_series(1, 10000) n`,
    );
    const page = await json("/takes?q=ada+take+77&limit=50");
    expect(page.total).toBe(countWith("77"));
    expect(page.takes).toHaveLength(50);
  });
});

const countWith = (digits: string) =>
  Array.from({ length: 10_000 }, (_, k) => `${k + 1}`).filter((name) => name.includes(digits)).length;

describe("what was deleted", () => {
  it("is listed with when it goes for good, a player's takes under the player, until it is back", async () => {
    const [undated] = (await json("/takes?q=undated")).takes as { id: string }[];
    const [river] = (await json("/takes?q=river")).takes as { id: string; playerId: string }[];
    await call(`/takes/${undated!.id}`, { method: "DELETE" });
    await call(`/players/${river!.playerId}`, { method: "DELETE" });
    const { deleted } = await json("/deleted");
    expect(deleted).toMatchObject([
      { kind: "player", name: "Bo", player: null, takes: 1 },
      { kind: "take", name: "Undated", player: null, takes: 1 },
    ]);
    // What README promises: half an hour.
    for (const { deletedAt, goesAt } of deleted) {
      expect(Date.parse(goesAt) - Date.parse(deletedAt)).toBe(30 * 60_000);
    }
    expect((await call(`/players/${deleted[0].id}/restore`, { method: "POST" })).status).toBe(200);
    expect((await call(`/takes/${deleted[1].id}/restore`, { method: "POST" })).status).toBe(200);
    expect(await json("/deleted")).toEqual({ deleted: [] });
    expect(await titles("q=river")).toEqual(["Little river"]);
  });
});
