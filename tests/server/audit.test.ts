/** The audit of reads and writes, quotas, and whose charts and shapes are. */
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import type { RunningServer } from "../../server/start.ts";
import { forgetAudit } from "../../server/store/audit.ts";
import { callsTo, sent } from "./calls.ts";
import { ARPEGGIOS, FOUR_BARS, serve, smallMidi, takeForm } from "./harness.ts";
import { type Outer, outerOf } from "./outer.ts";

vi.setConfig({ testTimeout: 180_000 });

let server: RunningServer;
let outer: Outer;
let mara: string;
const { json, post } = callsTo(() => server);

const file = (down: number, fields: Record<string, string>) => ({
  method: "POST",
  body: takeForm({ chart: FOUR_BARS, ...fields }, smallMidi(ARPEGGIOS.map((pitch) => pitch - down))),
});

beforeAll(async () => {
  server = await serve();
  outer = await outerOf(server);
  mara = (await post("/players", { name: "Wenzeslava" })).id;
});
afterAll(async () => {
  outer.close();
  await server.close();
});

describe("the audit", () => {
  it("holds who read and wrote what of persons, by ids, for owners alone", async () => {
    const teacher = await outer.as({ name: "Quittenbaum", role: "teacher", scope: [mara] });
    const { take } = await (await teacher("/takes", file(0, { playerId: mara }))).json();
    for (let i = 0; i < 3; i++) await teacher(`/takes/${take.id}/analysis`);
    await teacher("/takes?q=Wenzeslava");
    await teacher("/players/Wenzeslava");
    await teacher("/forms");
    expect((await teacher("/audit")).status).toBe(403);
    const { entries, next } = await json(`/audit?token=${teacher.id}`);
    expect(next).toBeNull();
    // Of what is about no person nothing is noted, and of what was refused not what was asked for.
    const told = entries.map(
      ({ action, route, about, status }: Record<string, unknown>) => `${action} ${route} ${about} ${status}`,
    );
    expect([...new Set(told)].sort()).toEqual([
      "read /audit null 403",
      "read /players/:id null 404",
      "read /takes null 200",
      `read /takes/:id/analysis ${take.id} 200`,
      "write /takes null 201",
    ]);
    const reads = entries.filter(({ about }: { about: string | null }) => about === take.id);
    expect(reads.reduce((sum: number, { times }: { times: number }) => sum + times, 0)).toBe(3);
    expect(entries[0]).toMatchObject({ role: "teacher", token: teacher.id, tokenName: "Quittenbaum" });
    expect(JSON.stringify(await server.services.database.query("select * from audit"))).not.toMatch(
      /Wenzeslava|Quittenbaum/,
    );
    expect((await json(`/audit?about=${take.id}&action=write`)).entries).toEqual([]);
  });

  it("says what was done in words and to whom, for as long as that is there", async () => {
    const player = (await post("/players", { name: "Schlehenfeuer" })).id;
    await json(`/players/${player}/page`);
    expect((await json(`/audit?about=${player}`)).entries[0]).toMatchObject({
      ...{ method: "get", route: "/players/:id/page", aboutName: "Schlehenfeuer" },
      what: expect.stringMatching(/player/i),
    });
    await server.services.database.query("update players set deleted_at = now() where id = $1", [player]);
    expect((await json(`/audit?about=${player}`)).entries[0]).toMatchObject({
      about: player,
      aboutName: null,
    });
  });

  it("comes a page at a time, whole and in order, and goes after its days", async () => {
    for (let i = 0; i < 4; i++) {
      await json(`/takes?limit=${i + 1}`);
      await json("/audit?limit=1");
    }
    const all = (await json("/audit?limit=1000")).entries.map(({ id }: { id: string }) => id);
    const paged: string[] = [];
    for (let after = ""; ; ) {
      const { entries, next } = await json(`/audit?limit=2${after}`);
      paged.push(...entries.map(({ id }: { id: string }) => id));
      if (next === null) break;
      after = `&after=${next}`;
    }
    expect(paged.filter((id) => all.includes(id))).toEqual(all);
    const { database } = server.services;
    await database.query("update audit set at = at - interval '8 days' where id = $1", [all[0]]);
    await forgetAudit(database, 7);
    expect(await database.query("select 1 from audit where id = $1", [all[0]])).toEqual([]);
    expect((await database.query("select 1 from audit")).length).toBeGreaterThanOrEqual(all.length - 1);
  });

  it("keeps what it could not write, and writes it later", async () => {
    const { audit, database } = server.services;
    await json("/class");
    await audit.flush();
    await database.script("alter table audit rename to away");
    await json("/class");
    await audit.flush();
    await database.script("alter table away rename to audit");
    const before = (await database.query("select 1 from audit where route = '/class'")).length;
    await audit.flush();
    expect(await database.query("select 1 from audit where route = '/class'")).toHaveLength(before + 1);
  });
});

describe("what a token may keep", () => {
  it("is bounded in takes and bytes, by a setting or of its own, and told when reached", async () => {
    const bounded = await outerOf(server, { quota: { takes: 1, megabytes: null } });
    const teacher = await bounded.as({ name: "t", role: "teacher", scope: [mara] });
    const keep = (down: number) => teacher("/takes", file(down, { playerId: mara }));
    const first = await keep(1);
    expect(first.status).toBe(201);
    const refused = await keep(2);
    expect(refused.status).toBe(403);
    expect(await refused.json()).toMatchObject({
      code: "quota-reached",
      title: expect.stringContaining("1 of 1 takes"),
    });
    // Deleting makes room; so does the owner.
    await teacher(`/takes/${(await first.json()).take.id}`, { method: "DELETE" });
    expect((await keep(2)).status).toBe(201);
    const change = (body: unknown) => json(`/tokens/${teacher.id}`, sent("PATCH", body));
    expect(await change({ mostTakes: 5 })).toMatchObject({
      mostTakes: 5,
      mostMb: null,
      takes: 1,
      scope: [mara],
    });
    expect((await keep(3)).status).toBe(201);
    const { megabytes } = await change({ mostMb: 0.0004 });
    expect(megabytes).toBeCloseTo((2 * smallMidi(ARPEGGIOS).length) / 1e6, 9);
    expect((await keep(4)).status).toBe(403);
    expect((await change({ mostMb: null })).mostMb).toBeNull();
    expect((await keep(4)).status).toBe(201);
    expect(await change({ mostTakes: -1 })).toMatchObject({ status: 400 });
    expect(await change({})).toMatchObject({ status: 400 });
    bounded.close();
  });
});

describe("charts, shapes, ideas and lenses", () => {
  it("belong to the teacher who made them: others read them, owners change all", async () => {
    const [one, two] = [
      await outer.as({ name: "one", role: "teacher", scope: [] }),
      await outer.as({ name: "two", role: "teacher", scope: [] }),
    ];
    const chart = { name: "Mine", text: "| F7 | Bb7 | C7 | F7 |" };
    const pattern = { viewpoint: "chromatic interval", symbols: [3, 2, 1] };
    for (const [kind, body] of [
      ["charts", chart],
      ["ideas", { name: "Mine", pattern }],
    ] as const) {
      const made = await (await one(`/${kind}`, sent("POST", body))).json();
      const at = `/${kind}/${made.id}`;
      const seen = async (who: typeof one) => (await (await who(at)).json()).yours;
      expect([made.yours, await seen(one), await seen(two), (await json(at)).yours]).toEqual([
        true,
        true,
        false,
        true,
      ]);
      const listed = (await (await two(`/${kind}`)).json())[kind].find(
        ({ id }: { id: string }) => id === made.id,
      );
      expect(listed.yours).toBe(false);
      expect(JSON.stringify(listed)).not.toContain(one.id);
      const refused = await two(at, sent("PATCH", { name: "Theirs" }));
      expect([refused.status, (await refused.json()).code]).toEqual([403, "not-yours"]);
      expect((await two(at, { method: "DELETE" })).status).toBe(403);
      expect((await one(at, sent("PATCH", { name: "Still mine" }))).status).toBe(200);
      expect((await one(at, { method: "DELETE" })).status).toBe(204);
      expect((await two(`${at}/restore`, { method: "POST" })).status).toBe(403);
      expect((await one(`${at}/restore`, { method: "POST" })).status).toBe(200);
      expect(await json(at, sent("PATCH", { name: "The owner's word" }))).toMatchObject({
        name: "The owner's word",
      });
      // What the owner made, and what stood before rows belonged to anybody, is the owner's.
      const house = await post(`/${kind}`, body);
      expect((await one(`/${kind}/${house.id}`, { method: "DELETE" })).status).toBe(403);
    }
  });
});
