/** A player's page: what is usual, the lens with its days, notes, consent, two players made one; and who may. */
import type { Server } from "node:http";
import type { AddressInfo } from "node:net";
import { unzipSync } from "fflate";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { createApp } from "../../server/app.ts";
import type { RunningServer } from "../../server/start.ts";
import { createToken } from "../../server/store/tokens.ts";
import { LENSES } from "../../src/lens/index.ts";
import { callsTo, sent } from "./calls.ts";
import { ARPEGGIOS, FOUR_BARS, serve, smallMidi, takeForm } from "./harness.ts";

let server: RunningServer;
const { call, json, post } = callsTo(() => server);

beforeAll(async () => {
  server = await serve();
});
afterAll(() => server.close());

const take = async (player: string, date: string, n = 0) =>
  (
    await json("/takes", {
      method: "POST",
      body: takeForm({ chart: FOUR_BARS, player, date }, smallMidi(ARPEGGIOS.map((pitch) => pitch - n))),
    })
  ).take as { id: string; playerId: string };
const lensIn = async (id: string) => (await json(`/takes/${id}/analysis`)).lens?.lens as string | undefined;

describe("a player's lens", () => {
  it("looks at the takes of its time, at takes that come, and at takes that change their day", async () => {
    const early = await take("Ilse", "2026-03-01");
    const late = await take("Ilse", "2026-03-20");
    const at = `/players/${early.playerId}/lens`;
    await json(at, sent("PUT", { lens: "register", since: "2026-03-10" }));
    expect([await lensIn(early.id), await lensIn(late.id)]).toEqual([undefined, "register"]);
    // A later one leaves what was before it alone.
    const page = await json(at, sent("PUT", { lens: "guide-tones", since: "2026-03-15" }));
    expect(page.lenses.map((one: { since: string }) => one.since)).toEqual(["2026-03-10", "2026-03-15"]);
    expect(await lensIn(late.id)).toBe("guide-tones");
    const between = await take("Ilse", "2026-03-12", 3);
    expect(await lensIn(between.id)).toBe("register");
    await json(`/takes/${between.id}`, sent("PATCH", { date: "2026-03-16" }));
    expect(await lensIn(between.id)).toBe("guide-tones");
    await json(`${at}/2026-03-15`, { method: "DELETE" });
    expect(await lensIn(late.id)).toBe("register");
    await json(at, sent("PUT", { lens: null, since: "2026-03-18" }));
    expect(await lensIn(late.id)).toBeUndefined();
  });

  it("may be a teacher's own, checked as it is made, and stays as it was when it was set", async () => {
    const own = { ...LENSES[5]!, name: "Room", asks: [{ measure: "rests", least: 0.3, partly: 0.2 }] };
    const made = await post("/lenses", { name: "Room", lens: own });
    const { playerId } = await take("Kaya", "2026-04-01");
    const page = await json(`/players/${playerId}/lens`, sent("PUT", { lens: made.id, since: "2026-04-01" }));
    expect(page.lenses[0].lens).toMatchObject({ id: made.id, name: "Room" });
    await json(`/lenses/${made.id}`, sent("PATCH", { name: "Other" }));
    expect((await json(`/players/${playerId}/page`)).lenses[0].lens.name).toBe("Room");
    const bad = await call(
      "/lenses",
      sent("POST", { name: "x", lens: { ...own, asks: [{ measure: "rests", least: 3, partly: 0 }] } }),
    );
    expect([bad.status, (await bad.json()).where]).toEqual([422, "asks.0"]);
    expect(
      (await call(`/players/${playerId}/lens`, sent("PUT", { lens: "none", since: "2026-04-01" }))).status,
    ).toBe(404);
  });
});

describe("what is usual for a player", () => {
  it("is used for the next take where nothing else is said", async () => {
    const { playerId } = await take("Piet", "2026-05-01");
    await json(
      `/players/${playerId}/page`,
      sent("PATCH", { usual: { handSize: "small", shapes: ["third-and-steps"], chart: FOUR_BARS } }),
    );
    const next = await take("Piet", "2026-05-08");
    const { options } = await json(`/takes/${next.id}/analysis`);
    expect(options).toMatchObject({ handSize: "small", shapes: ["third-and-steps"] });
    const form = takeForm(
      { chart: FOUR_BARS, player: "piet", options: '{"handSize":"large","shapes":[]}' },
      smallMidi(ARPEGGIOS),
    );
    const told = await json("/takes", { method: "POST", body: form });
    expect(told.analysis.options).toMatchObject({ handSize: "large", shapes: [] });
    const bad = await call(`/players/${playerId}/page`, sent("PATCH", { usual: { chart: "| H7 |" } }));
    expect(bad.status).toBe(422);
  });
});

describe("the usual shapes of a player", () => {
  it("may be the teacher's own; one that was deleted since is left out", async () => {
    const { playerId } = await take("Juna", "2026-05-01");
    const shape = {
      name: "seventh chord",
      fingers: [1, 2, 3, 5],
      semitones: [0, 4, 7, 10],
      anchorFinger: 1,
      anchorDegrees: [{ degree: "1", qualities: ["dominant"] }],
    };
    const { id } = await post("/shapes", { name: shape.name, shape });
    const usual = { shapes: [shape.name, "third-and-steps"] };
    await json(`/players/${playerId}/page`, sent("PATCH", { usual }));
    const optionsOf = async (date: string) =>
      (await json(`/takes/${(await take("Juna", date)).id}/analysis`)).options;
    expect(await optionsOf("2026-05-08")).toMatchObject({ ...usual, ownShapes: [shape] });
    await call(`/shapes/${id}`, { method: "DELETE" });
    expect(await optionsOf("2026-05-15")).toMatchObject({ shapes: ["third-and-steps"], ownShapes: [] });
  });
});

describe("notes, consent and export", () => {
  it("stand on the page and go with the export", async () => {
    const { playerId } = await take("Runa", "2026-06-01");
    const consent = { date: "2026-05-30", by: "mother" };
    await json(`/players/${playerId}/page`, sent("PATCH", { consent }));
    const page = await post(`/players/${playerId}/notes`, { date: "2026-06-02", text: "Plays with joy." });
    expect(page).toMatchObject({ consent, notes: [{ date: "2026-06-02", text: "Plays with joy." }] });
    await json(`/players/${playerId}/lens`, sent("PUT", { lens: "register", since: "2026-06-01" }));
    const zip = new Uint8Array(await (await call(`/players/${playerId}/export.zip`)).arrayBuffer());
    const held = JSON.parse(new TextDecoder().decode(unzipSync(zip)["player.json"]));
    expect(held).toMatchObject({ name: "Runa", consent, notes: [{ text: "Plays with joy." }] });
    expect(held.lenses[0].lens.id).toBe("register");
    const after = await json(`/players/${playerId}/notes/${page.notes[0].id}`, { method: "DELETE" });
    expect(after.notes).toEqual([]);
  });
});

describe("two players made one", () => {
  it("keep all takes, notes and lenses, and the ways of the one who stays", async () => {
    const [first, second] = [await take("Ada", "2026-07-01"), await take("Adda", "2026-07-08", 2)];
    await json(`/players/${first.playerId}/page`, sent("PATCH", { usual: { handSize: "small" } }));
    const given = { usual: { handSize: "large", shapes: [] } };
    await json(`/players/${second.playerId}/page`, sent("PATCH", given));
    await json(`/players/${second.playerId}/lens`, sent("PUT", { lens: "register", since: "2026-07-01" }));
    await post(`/players/${second.playerId}/notes`, { date: "2026-07-09", text: "Hello." });
    const page = await post(`/players/${second.playerId}/merge`, { into: first.playerId });
    expect(page).toMatchObject({
      name: "Ada",
      usual: { handSize: "small", shapes: [] },
      notes: [{ text: "Hello." }],
    });
    const { takes } = await json(`/takes?player=${first.playerId}`);
    expect(takes.map(({ id }: { id: string }) => id).sort()).toEqual([first.id, second.id].sort());
    expect(await lensIn(first.id)).toBe("register");
    expect((await call(`/players/${second.playerId}`)).status).toBe(404);
    const same = await call(`/players/${first.playerId}/merge`, sent("POST", { into: first.playerId }));
    expect(same.status).toBe(422);
  });
});

describe("a teacher's token", () => {
  let outer: Server;
  afterAll(() => outer.close());

  it("opens the pages of their own players and merges no others into them", async () => {
    const [own, foreign] = [await take("Own", "2026-08-01"), await take("Foreign", "2026-08-01", 1)];
    const { services } = server;
    outer = createApp({ ...services, needsToken: true }).listen(0, "127.0.0.1");
    await new Promise((done) => outer.once("listening", done));
    const url = `http://127.0.0.1:${(outer.address() as AddressInfo).port}/api`;
    const { token } = await createToken(services.database, {
      ...{ name: "t", role: "teacher", scope: [own.playerId] },
    });
    const { token: reader } = await createToken(services.database, {
      ...{ name: "r", role: "reader", scope: [own.id] },
    });
    const status = async (path: string, init: RequestInit = {}, by = token) =>
      (await fetch(url + path, { ...init, headers: { ...init.headers, authorization: `Bearer ${by}` } }))
        .status;
    const paths = (id: string) =>
      [
        [`/players/${id}/page`, {}],
        [`/players/${id}/page`, sent("PATCH", { consent: null })],
        [`/players/${id}/lens`, sent("PUT", { lens: null, since: "2026-08-01" })],
        [`/players/${id}/notes`, sent("POST", { date: "2026-08-01", text: "x" })],
      ] as const;
    for (const [path, init] of paths(own.playerId))
      expect([path, await status(path, init)]).toEqual([path, 200]);
    for (const [path, init] of paths(foreign.playerId))
      expect([path, await status(path, init)]).toEqual([path, 404]);
    for (const [path, init] of paths(own.playerId))
      expect([path, await status(path, init, reader)]).toEqual([path, 403]);
    expect(await status(`/players/${own.playerId}/merge`, sent("POST", { into: foreign.playerId }))).toBe(
      404,
    );
    expect(await status(`/players/${foreign.playerId}/merge`, sent("POST", { into: own.playerId }))).toBe(
      404,
    );
  });
});
