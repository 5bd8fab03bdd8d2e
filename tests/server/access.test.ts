import type { Server } from "node:http";
import type { AddressInfo } from "node:net";
import pino from "pino";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Access } from "../../server/access.ts";
import { createApp } from "../../server/app.ts";
import { routes } from "../../server/routes/index.ts";
import type { RunningServer } from "../../server/start.ts";
import { startServer } from "../../server/start.ts";
import { createToken } from "../../server/store/tokens.ts";
import { ARPEGGIOS, FOUR_BARS, serve, smallMidi, takeForm } from "./harness.ts";

let inner: RunningServer;
let outer: Server;
let url: string;
const tokens: Record<string, string> = {};
let take: string;
let other: string;

const as = (who: string | null, path: string, init: RequestInit = {}) =>
  fetch(`${url}/api${path}`, {
    ...init,
    headers: { ...init.headers, ...(who === null ? {} : { authorization: `Bearer ${tokens[who]}` }) },
  });
const sent = (method: string, body: unknown): RequestInit => ({
  method,
  headers: { "content-type": "application/json" },
  body: JSON.stringify(body),
});

beforeAll(async () => {
  inner = await serve();
  const { services } = inner;
  outer = createApp({ ...services, needsToken: true }).listen(0, "127.0.0.1");
  await new Promise((done) => outer.once("listening", done));
  url = `http://127.0.0.1:${(outer.address() as AddressInfo).port}`;
  const add = async (player: string, n: number) => {
    const response = await fetch(`${inner.url}/api/takes`, {
      method: "POST",
      body: takeForm({ chart: FOUR_BARS, player }, smallMidi(ARPEGGIOS.map((pitch) => pitch - n))),
    });
    return (await response.json()).take as { id: string; playerId: string };
  };
  const mara = await add("Mara", 0);
  take = mara.id;
  other = (await add("Ove", 12)).id;
  for (const [name, role, scope] of [
    ["owner", "owner", []],
    ["teacher", "teacher", [mara.playerId]],
    ["reader", "reader", [mara.id]],
    ["researcher", "researcher", ["no-such-corpus"]],
  ] as const) {
    tokens[name] = (await createToken(services.database, { name, role, scope })).token;
  }
});
afterAll(async () => {
  outer.closeAllConnections();
  outer.close();
  await inner.close();
});

describe("access with tokens", () => {
  it("the service does not listen on another address without an owner's token", async () => {
    await expect(
      startServer({ host: "0.0.0.0", port: 0, dataDir: null, demo: false, log: pino({ level: "silent" }) }),
    ).rejects.toMatchObject({ code: "no-token" });
  });

  it("without a token nothing is told but that the process lives", async () => {
    expect((await as(null, "/health")).status).toBe(200);
    for (const path of ["/takes", `/takes/${take}`, "/forms", "/players", "/tokens", "/corpora"]) {
      expect((await as(null, path)).status).toBe(401);
    }
  });

  it("each role reaches its scope and nothing else", async () => {
    const statuses = async (path: string, init?: RequestInit) =>
      Promise.all(
        ["owner", "teacher", "reader", "researcher"].map(async (who) => (await as(who, path, init)).status),
      );
    expect(await statuses(`/takes/${take}`)).toEqual([200, 200, 200, 404]);
    expect(await statuses(`/takes/${other}`)).toEqual([200, 404, 404, 404]);
    expect(await statuses(`/takes/${take}/analysis`)).toEqual([200, 200, 200, 404]);
    expect(await statuses(`/takes/${other}`, sent("PATCH", { title: "x" }))).toEqual([200, 404, 403, 403]);
    expect(await statuses("/tokens")).toEqual([200, 403, 403, 403]);
    expect(await statuses("/corpora", sent("POST", { name: "c" }))).toEqual([201, 403, 403, 403]);
    const seen = async (who: string) => (await (await as(who, "/takes")).json()).takes.length;
    expect([
      await seen("owner"),
      await seen("teacher"),
      await seen("reader"),
      await seen("researcher"),
    ]).toEqual([2, 1, 1, 0]);
    expect((await (await as("teacher", "/players")).json()).players).toHaveLength(1);
  });

  it("no route but those that are open on purpose answers without a token", async () => {
    expect(
      routes.filter(({ access }) => access === "open").map(({ method, path }) => `${method} ${path}`),
    ).toEqual(["get /health", "get /ready", "post /session", "delete /session"]);
    for (const { method, path, access } of routes) {
      if (access === "open") continue;
      const at = path.replace(/:\w+/g, "x");
      const response = await as(null, at, { method: method.toUpperCase() });
      expect([method, at, response.status]).toEqual([method, at, 401]);
    }
  });

  it("each role is refused every route that is not of its kind, before anything is read", async () => {
    const refused: Record<string, readonly Access[]> = {
      teacher: ["owner", "corpus", "job"],
      reader: ["owner", "working", "teaching", "player", "corpus", "job"],
      researcher: ["owner", "teaching", "player"],
    };
    for (const [who, kinds] of Object.entries(refused)) {
      for (const { method, path, access } of routes) {
        const at = path.replace(/:\w+/g, "x");
        const response = await as(who, at, { method: method.toUpperCase() });
        const what = `${who} ${method} ${at}`;
        if (kinds.includes(access)) expect([what, response.status]).toEqual([what, 403]);
        // What is of its kind and out of its scope, or not there, cannot be told apart.
        else if (["take", "player", "corpus", "job"].includes(access)) {
          expect([what, [403, 404].includes(response.status)]).toEqual([what, true]);
        }
      }
    }
  });

  it("a teacher gives takes to their own players only, and cannot widen their reach", async () => {
    expect((await as("teacher", `/takes/${take}`, sent("PATCH", { player: "Ove" }))).status).toBe(403);
    expect((await as("teacher", `/takes/${take}`, sent("PATCH", { player: null }))).status).toBe(403);
    expect((await as("teacher", `/takes/${take}`, sent("PATCH", { player: "mara" }))).status).toBe(200);
    const form = takeForm({ chart: FOUR_BARS, player: "Somebody new" }, smallMidi(ARPEGGIOS));
    expect((await as("teacher", "/takes", { method: "POST", body: form })).status).toBe(403);
    expect((await as("teacher", "/players", sent("POST", { name: "Mine" }))).status).toBe(403);
  });

  it("a researcher reads the corpora of the token and no others, and changes none", async () => {
    const mine = await (await as("owner", "/corpora", sent("POST", { name: "Mine" }))).json();
    const theirs = await (await as("owner", "/corpora", sent("POST", { name: "Theirs" }))).json();
    const made = await (
      await as("owner", "/tokens", sent("POST", { name: "r", role: "researcher", scope: [mine.id] }))
    ).json();
    tokens.scoped = made.token;
    const status = async (path: string, init?: RequestInit) => (await as("scoped", path, init)).status;
    for (const path of ["", "/summary", "/notes", "/citation", "/vocabulary", "/failures"]) {
      expect([path, await status(`/corpora/${mine.id}${path}`)]).toEqual([path, 200]);
      expect([path, await status(`/corpora/${theirs.id}${path}`)]).toEqual([path, 404]);
    }
    expect((await (await as("scoped", "/corpora")).json()).corpora).toHaveLength(1);
    expect(await status(`/corpora/${mine.id}`, { method: "DELETE" })).toBe(403);
  });

  it("a file that failed is told to those of its corpus alone", async () => {
    const made = async (name: string) =>
      (await (await as("owner", "/corpora", sent("POST", { name }))).json()).id;
    const [mine, theirs] = [await made("Of one"), await made("Of another")];
    const form = takeForm({ chart: FOUR_BARS }, new TextEncoder().encode("no MIDI at all"), "bad.mid");
    await as("owner", `/corpora/${theirs}/takes`, { method: "POST", body: form });
    const failed = async () => (await (await as("owner", `/corpora/${theirs}/failures`)).json()).failures;
    await expect.poll(failed, { timeout: 30_000 }).toHaveLength(1);
    const [{ item }] = await failed();
    expect((await as("owner", `/corpora/${theirs}/failures/${item}`)).status).toBe(200);
    expect((await as("owner", `/corpora/${mine}/failures/${item}`)).status).toBe(404);
  });

  it("what a token reaches is changed without a new token, by an owner, until it ends", async () => {
    const players = (await (await as("owner", "/players")).json()).players as { id: string; name: string }[];
    const idOf = (name: string) => players.find((player) => player.name === name)!.id;
    const body = sent("POST", { name: "t", role: "teacher", scope: [idOf("Mara")] });
    const { id, token } = await (await as("owner", "/tokens", body)).json();
    tokens.changing = token;
    const change = (who: string, scope: string[]) => as(who, `/tokens/${id}`, sent("PATCH", { scope }));
    expect((await as("changing", `/takes/${other}`)).status).toBe(404);
    expect((await change("changing", [idOf("Ove")])).status).toBe(403);
    const changed = await change("owner", [idOf("Mara"), idOf("Ove")]);
    expect(await changed.json()).toMatchObject({ id, scope: [idOf("Mara"), idOf("Ove")] });
    expect((await as("changing", `/takes/${other}`)).status).toBe(200);
    expect((await as("owner", `/tokens/${id}`, sent("PATCH", {}))).status).toBe(400);
    await as("owner", `/tokens/${id}`, { method: "DELETE" });
    expect((await change("owner", [])).status).toBe(404);
  });

  it("an owner, and the teacher of a player, see who may see what of the player", async () => {
    const players = (await (await as("owner", "/players")).json()).players as { id: string; name: string }[];
    const idOf = (name: string) => players.find((player) => player.name === name)!.id;
    await as("owner", `/takes/${take}/shares`, sent("POST", { name: "reach link" }));
    await as("owner", `/players/${idOf("Mara")}/shares`, sent("POST", { name: "own page" }));
    const told = await (await as("teacher", `/players/${idOf("Mara")}/access`)).json();
    expect(told.takes).toBe(1);
    const rows = told.tokens.map((one: { name: string; role: string; takes: number }) => [
      ...[one.name, one.role, one.takes],
    ]);
    expect(rows).toEqual(
      expect.arrayContaining([
        ["owner", "owner", 1],
        ["teacher", "teacher", 1],
        ["own page", "student", 1],
        ["reach link", "reader", 1],
      ]),
    );
    expect(rows.map(([name]: string[]) => name)).not.toContain("researcher");
    const ofOve = await (await as("owner", `/players/${idOf("Ove")}/access`)).json();
    expect(ofOve.tokens.every(({ role }: { role: string }) => role === "owner")).toBe(true);
    expect((await as("teacher", `/players/${idOf("Ove")}/access`)).status).toBe(404);
    expect((await as("reader", `/players/${idOf("Mara")}/access`)).status).toBe(403);
  });

  it("a token says by name what it reaches, and is forgotten with its own name", async () => {
    const body = sent("POST", { name: "Quittenbaum", role: "reader", scope: [take, "gone"] });
    const { id } = await (await as("owner", "/tokens", body)).json();
    const listed = async () => {
      const { tokens: rows } = await (await as("owner", "/tokens")).json();
      return rows.find((row: { id: string }) => row.id === id);
    };
    expect((await listed()).reaches).toEqual([
      { id: take, name: expect.any(String) },
      { id: "gone", name: null },
    ]);
    await as("owner", `/tokens/${id}`, { method: "DELETE" });
    expect((await listed()).endedAt).not.toBeNull();
    expect((await as("teacher", `/tokens/${id}?forget=true`, { method: "DELETE" })).status).toBe(403);
    expect((await as("owner", `/tokens/${id}?forget=true`, { method: "DELETE" })).status).toBe(204);
    expect(await listed()).toBeUndefined();
    const left = await inner.services.database.query("select 1 from tokens where name = 'Quittenbaum'");
    expect(left).toEqual([]);
  });

  it("a link never takes the place of a session that reaches more", async () => {
    const { path } = await (await as("owner", `/takes/${take}/shares`, sent("POST", { name: "l" }))).json();
    const opened = async (who: string | null) => {
      const cookie = who === null ? {} : { cookie: `ledgerline_session=${tokens[who]}` };
      const response = await fetch(`${url}${path}`, { redirect: "manual", headers: cookie });
      return [response.status, response.headers.has("set-cookie")];
    };
    expect(await opened(null)).toEqual([303, true]);
    expect(await opened("reader")).toEqual([303, true]);
    for (const who of ["owner", "teacher", "researcher"]) expect(await opened(who)).toEqual([303, false]);
  });

  it("refusals are logged with their path and without what was tried as a token", async () => {
    const lines: string[] = [];
    const log = pino({ level: "warn" }, { write: (line: string) => lines.push(line) });
    const watched = createApp({ ...inner.services, needsToken: true, log }).listen(0, "127.0.0.1");
    await new Promise((done) => watched.once("listening", done));
    const at = `http://127.0.0.1:${(watched.address() as AddressInfo).port}`;
    const token = "guess-guess-guess-guess-guess";
    await fetch(`${at}/api/tokens`, { headers: { authorization: `Bearer ${token}` } });
    await fetch(`${at}/api/session`, sent("POST", { token }));
    await fetch(`${at}/shared/${token}`);
    await fetch(`${at}/api/tokens`, { headers: { authorization: `Bearer ${tokens.teacher}` } });
    watched.closeAllConnections();
    watched.close();
    const events = lines.map((line) => JSON.parse(line));
    expect(events.map(({ path, code }) => [path, code])).toEqual([
      ["/api/tokens", "token-needed"],
      ["/api/session", "token-unknown"],
      ["/api/tokens", "not-allowed"],
    ]);
    for (const { time, ip, method } of events)
      expect([typeof time, typeof ip, typeof method]).not.toContain("undefined");
    expect(lines.join("")).not.toContain(token);
    expect(lines.join("")).not.toContain(tokens.teacher);
  });

  it("a fault inside tells nothing of the inside", async () => {
    const broken = {
      ...inner.services.database,
      query: async () => {
        throw new Error("relation takes of user ledgerline at /var/lib/secret does not exist");
      },
    };
    const failing = createApp({ ...inner.services, database: broken as never }).listen(0, "127.0.0.1");
    await new Promise((done) => failing.once("listening", done));
    const at = `http://127.0.0.1:${(failing.address() as AddressInfo).port}`;
    const response = await fetch(`${at}/api/takes`);
    failing.closeAllConnections();
    failing.close();
    expect(response.status).toBe(500);
    expect(await response.text()).not.toMatch(/relation|secret|ledgerline|\.ts/);
  });

  it("behind a proxy that speaks TLS the cookie is sent over TLS only, and its word counts only when told so", async () => {
    const cookieBehind = async (proxies: number) => {
      const app = createApp({ ...inner.services, needsToken: true, proxies }).listen(0, "127.0.0.1");
      await new Promise((done) => app.once("listening", done));
      const at = `http://127.0.0.1:${(app.address() as AddressInfo).port}`;
      const init = sent("POST", { token: tokens.reader });
      const response = await fetch(`${at}/api/session`, {
        ...init,
        headers: { ...init.headers, "x-forwarded-proto": "https" },
      });
      app.closeAllConnections();
      app.close();
      return response.headers.get("set-cookie")!;
    };
    expect(await cookieBehind(1)).toContain("Secure");
    expect(await cookieBehind(0)).not.toContain("Secure");
  });

  it("a token is kept as a hash, and opens nothing once it has ended", async () => {
    const made = await (
      await as("owner", "/tokens", sent("POST", { name: "short", role: "reader", scope: [take] }))
    ).json();
    tokens.short = made.token;
    const rows = await inner.services.database.query("select * from tokens");
    expect(JSON.stringify(rows)).not.toContain(made.token);
    expect((await as("short", `/takes/${take}`)).status).toBe(200);
    expect((await as("owner", `/tokens/${made.id}`, { method: "DELETE" })).status).toBe(204);
    expect((await as("short", `/takes/${take}`)).status).toBe(401);
  });

  it("a page signs in with a cookie that scripts cannot read", async () => {
    const response = await as(null, "/session", sent("POST", { token: tokens.reader }));
    const cookie = response.headers.get("set-cookie")!;
    expect(cookie).toMatch(/HttpOnly/);
    expect(cookie).toMatch(/SameSite=Strict/);
    // Twelve hours, after which the token is asked for again.
    expect(cookie).toMatch(/Max-Age=43200/);
    const read = await fetch(`${url}/api/takes/${take}`, { headers: { cookie: cookie.split(";")[0]! } });
    expect(read.status).toBe(200);
    expect((await as(null, "/session", sent("POST", { token: "x".repeat(43) }))).status).toBe(401);
  });

  it("SQL, paths and markup in fields are only text", async () => {
    const nasty = `'); drop table takes; -- <img src=x onerror=alert(1)> ../../etc/passwd`;
    const made = await (await as("owner", "/players", sent("POST", { name: nasty }))).json();
    expect(made.name).toBe(nasty);
    expect((await as("owner", `/takes/${encodeURIComponent(nasty.slice(0, 90))}`)).status).toBe(404);
    expect((await as("owner", "/takes")).status).toBe(200);
    const renamed = await as("owner", `/takes/${take}`, sent("PATCH", { title: `a"\r\nX-Evil: 1` }));
    expect(renamed.status).toBe(200);
    const source = await as("owner", `/takes/${take}/source`);
    expect(source.headers.get("x-evil")).toBeNull();
  });

  it("answers carry headers that keep pages to themselves", async () => {
    const response = await fetch(`${url}/api/health`);
    expect(response.headers.get("content-security-policy")).toContain("default-src 'self'");
    expect(response.headers.get("x-content-type-options")).toBe("nosniff");
    expect(response.headers.get("x-powered-by")).toBeNull();
    expect(response.headers.get("cache-control")).toBe("no-store");
  });
});
