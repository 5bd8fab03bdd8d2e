import { mkdtemp, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { DuckDBInstance } from "@duckdb/node-api";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { RunningServer } from "../../server/start.ts";
import { analysisSchema } from "../../src/account.ts";
import { ARPEGGIOS, FOUR_BARS, serve, smallMidi, takeForm } from "./harness.ts";

let server: RunningServer;
const call = (path: string, init?: RequestInit) => fetch(`${server.url}/api${path}`, init);
const json = async (path: string, init?: RequestInit) => (await call(path, init)).json();
const send = (method: string, body: unknown): RequestInit => ({
  method,
  headers: { "content-type": "application/json" },
  body: JSON.stringify(body),
});

beforeAll(async () => {
  server = await serve();
});
afterAll(() => server.close());

describe("a take through the API", () => {
  it("is analysed without being kept", async () => {
    const response = await call("/analyse", {
      method: "POST",
      body: takeForm({ chart: FOUR_BARS }, smallMidi(ARPEGGIOS)),
    });
    expect(response.status).toBe(200);
    const analysis = analysisSchema.parse(await response.json());
    expect(analysis.notes).toHaveLength(ARPEGGIOS.length);
    // A triad with its seventh holds only these four roles, by what the words mean.
    expect(new Set(analysis.notes.map((note) => note.role))).toEqual(
      new Set(["root", "third", "fifth", "seventh"]),
    );
    expect((await json("/takes")).takes).toHaveLength(0);
  });

  it("is kept, read in every form, changed, deleted and brought back", async () => {
    const created = await call("/takes", {
      method: "POST",
      body: takeForm(
        { chart: FOUR_BARS, player: "Mara", title: "March", date: "2026-03-01", tags: "class, spring" },
        smallMidi(ARPEGGIOS),
      ),
    });
    expect(created.status).toBe(201);
    const { take } = await created.json();
    expect(take).toMatchObject({
      title: "March",
      player: "Mara",
      date: "2026-03-01",
      notes: 16,
      choruses: 1,
    });
    expect(created.headers.get("location")).toBe(`/api/takes/${take.id}`);

    const path = `/takes/${take.id}`;
    analysisSchema.parse(await json(`${path}/analysis`));
    const source = new Uint8Array(await (await call(`${path}/source`)).arrayBuffer());
    expect(source).toEqual(smallMidi(ARPEGGIOS));
    const csv = await (await call(`${path}/notes?format=csv`)).text();
    expect(csv.split("\r\n")).toHaveLength(1 + ARPEGGIOS.length + 1);
    const lines = (await (await call(`${path}/notes?format=ndjson`)).text()).trim().split("\n");
    expect(lines.map((line) => JSON.parse(line).pitch)).toEqual(ARPEGGIOS);
    expect(await (await call(`${path}/score.musicxml`)).text()).toContain("<score-partwise");
    const midi = new Uint8Array(await (await call(`${path}/solo.mid`)).arrayBuffer());
    expect(String.fromCharCode(...midi.slice(0, 4))).toBe("MThd");

    const changed = await json(
      path,
      send("PATCH", { chart: "key: F\n| Fm7 | Bb7 | C7 | Fm7 |", title: "April" }),
    );
    expect(changed.take.title).toBe("April");
    expect(changed.analysis.chart.bars[0].chords[0].symbol).toBe("Fm7");

    expect((await call(path, { method: "DELETE" })).status).toBe(204);
    expect((await call(path)).status).toBe(404);
    expect((await call(`${path}/restore`, { method: "POST" })).status).toBe(200);
    expect((await json(path)).title).toBe("April");
  });

  it("gives its notes as a Parquet file that another reader opens", async () => {
    const { takes } = await json("/takes");
    const response = await call(`/takes/${takes[0].id}/notes?format=parquet`);
    expect(response.headers.get("content-type")).toBe("application/vnd.apache.parquet");
    const file = join(await mkdtemp(join(tmpdir(), "ledgerline-parquet-")), "notes.parquet");
    await writeFile(file, new Uint8Array(await response.arrayBuffer()));
    // DuckDB reads Parquet independently of the library that wrote it.
    const duck = await (await DuckDBInstance.create(":memory:")).connect();
    const rows = async (sql: string) => (await duck.runAndReadAll(sql)).getRows();
    const pitches = await rows(`select pitch from '${file}' order by onset`);
    expect(pitches.map(([pitch]) => pitch)).toEqual(ARPEGGIOS);
    const types = await rows(`select column_name, column_type from (describe select * from '${file}')`);
    expect(Object.fromEntries(types)).toMatchObject({
      ...{ pitch: "INTEGER", onset: "DOUBLE", solo: "BOOLEAN", role: "VARCHAR" },
    });
    const notes = (await json(`/takes/${takes[0].id}/notes`)).notes as { account: string }[];
    const accounts = await rows(`select account from '${file}' order by onset`);
    expect(accounts.map(([account]) => account)).toEqual(notes.map((note) => note.account));
  });

  it("goes with its player, and comes back with the player", async () => {
    const players = (await json("/players")).players as { id: string; name: string }[];
    const mara = players.find((player) => player.name === "Mara")!;
    expect((await call(`/players/${mara.id}`, { method: "DELETE" })).status).toBe(204);
    expect((await json("/takes")).takes).toHaveLength(0);
    await call(`/players/${mara.id}/restore`, { method: "POST" });
    expect((await json("/takes")).takes).toHaveLength(1);
  });
});

describe("what cannot be worked with gets one clear sentence and changes nothing", () => {
  const refused: readonly [string, FormData | (() => FormData), number, string][] = [
    ["an empty file", takeForm({ chart: FOUR_BARS }, new Uint8Array(0), "empty.mid"), 422, "empty"],
    [
      "a picture",
      takeForm({ chart: FOUR_BARS }, Uint8Array.from([0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10]), "a.png"),
      422,
      "",
    ],
    ["a chart with a mistake", takeForm({ chart: "| F7 | J7 |" }, smallMidi(ARPEGGIOS)), 422, "not-a-chord"],
    ["a form without a key", takeForm({ form: "blues-basic" }, smallMidi(ARPEGGIOS)), 400, "key-missing"],
    [
      "options that are not JSON",
      takeForm({ chart: FOUR_BARS, options: "{" }, smallMidi(ARPEGGIOS)),
      400,
      "options-not-json",
    ],
    [
      "an option out of range",
      takeForm({ chart: FOUR_BARS, options: '{"tempo":4}' }, smallMidi(ARPEGGIOS)),
      400,
      "invalid-request",
    ],
    ["an unknown player", takeForm({ chart: FOUR_BARS, playerId: "nobody" }, smallMidi(ARPEGGIOS)), 422, ""],
  ];

  it.each(refused)("%s", async (_name, form, status, code) => {
    const before = (await json("/takes")).takes.length;
    const response = await call("/takes", { method: "POST", body: form as FormData });
    expect(response.status).toBe(status);
    expect(response.headers.get("content-type")).toContain("application/problem+json");
    const problem = await response.json();
    expect(problem.code).toContain(code);
    expect(problem.detail.length).toBeGreaterThan(10);
    expect(problem.todo.length).toBeGreaterThan(5);
    expect((await json("/takes")).takes).toHaveLength(before);
  });

  it("a page of another origin may not change anything", async () => {
    const response = await call("/players", {
      ...send("POST", { name: "X" }),
      headers: { "content-type": "application/json", origin: "https://elsewhere.example" },
    });
    expect(response.status).toBe(403);
  });
});

describe("players, charts and shapes", () => {
  it("a chart is kept in the house style and used by its id", async () => {
    const chart = await json("/charts", send("POST", { name: "Four", text: "key: F\n|F7|Bb7|C7|F7|" }));
    const created = await call("/takes", {
      method: "POST",
      body: takeForm({ chartId: chart.id }, smallMidi(ARPEGGIOS)),
    });
    expect(created.status).toBe(201);
    const bad = await call("/charts", send("POST", { name: "Bad", text: "| F7 | X9 |" }));
    expect(bad.status).toBe(422);
    expect((await bad.json()).where).toContain("bar 2");
  });

  it("a shape that no hand has is refused", async () => {
    const shape = {
      name: "too wide",
      fingers: [2, 3],
      semitones: [0, 14],
      anchorFinger: 2,
      anchorDegrees: [{ degree: "1", qualities: [] }],
    };
    expect((await call("/shapes", send("POST", { name: "too wide", shape }))).status).toBe(422);
  });

  it("the document describes every route", async () => {
    const document = await json("/openapi.json");
    expect(document.openapi).toBe("3.1.0");
    expect(Object.keys(document.paths)).toContain("/api/takes/{id}/analysis");
  });
});

describe("corrections of a take", () => {
  it("are laid one over the other, survive other changes, and are undone one by one", async () => {
    const created = await call("/takes", {
      method: "POST",
      body: takeForm({ chart: FOUR_BARS }, smallMidi(ARPEGGIOS)),
    });
    const path = `/takes/${(await created.json()).take.id}`;
    const change = async (body: unknown) => (await json(path, send("PATCH", body))).analysis;
    const first = { note: "t1/0/65", finger: 2 };
    const second = { note: "t1/96/69", hand: "left" };
    // Two pages at once: neither loses what the other put right.
    await Promise.all([change({ correct: [first] }), change({ correct: [second] })]);
    const both = await change({ options: { tempo: 100 } });
    expect(both.corrections.map(({ note }: { note: string }) => note).sort()).toEqual([
      "t1/0/65",
      "t1/96/69",
    ]);
    expect(both.notes[0]).toMatchObject({ finger: 2, fingerSource: "corrected" });
    expect(both.notes[1].hand).toBe("left");
    const undone = await change({ correct: [{ note: "t1/0/65" }] });
    expect(undone.corrections).toMatchObject([{ ...second, became: "applied" }]);
    expect((await change({ options: { corrections: [] } })).corrections).toEqual([]);
    const refused = await call(path, send("PATCH", { correct: [{ note: "t1/0/65", finger: 6 }] }));
    expect(refused.status).toBe(400);
    expect(await refused.json()).toMatchObject({ where: expect.stringContaining("correct") });
    await call(path, { method: "DELETE" });
  });
});
