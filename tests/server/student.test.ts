/** A student's view behind a link: own takes, own lessons, own view; nothing of anybody else, whatever is asked for. */
import type { Server } from "node:http";
import type { AddressInfo } from "node:net";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { createApp } from "../../server/app.ts";
import { routes } from "../../server/routes/index.ts";
import type { RunningServer } from "../../server/start.ts";
import { callsTo, sent } from "./calls.ts";
import { ARPEGGIOS, FOUR_BARS, serve, smallMidi, takeForm } from "./harness.ts";

let inner: RunningServer;
let outer: Server;
let url: string;
let link: string;
const { json, post, call } = callsTo(() => inner);
const held: Record<string, { player: string; take: string; lesson: string }> = {};

const asStudent = (path: string, init: RequestInit = {}) =>
  fetch(`${url}/api${path}`, { ...init, headers: { ...init.headers, authorization: `Bearer ${link}` } });

beforeAll(async () => {
  inner = await serve();
  outer = createApp({ ...inner.services, needsToken: true }).listen(0, "127.0.0.1");
  await new Promise((done) => outer.once("listening", done));
  url = `http://127.0.0.1:${(outer.address() as AddressInfo).port}`;
  for (const [n, name] of ["Mara", "Ovide"].entries()) {
    const form = takeForm(
      { chart: FOUR_BARS, player: name, title: `${name}'s evening` },
      smallMidi(ARPEGGIOS.map((pitch) => pitch - 12 * n)),
    );
    const { take } = await json("/takes", { method: "POST", body: form });
    const { lessons } = await post("/lessons", {
      ...{ form: "blues-basic", key: "F", handedOn: "2026-10-01", players: [take.playerId] },
    });
    await post("/charts", { name: `${name}'s tune`, text: FOUR_BARS });
    held[name] = { player: take.playerId, take: take.id, lesson: lessons[0].id };
  }
  const made = await post(`/players/${held.Mara!.player}/shares`, { name: "Mara", days: 30 });
  link = made.path.split("/").at(-1);
});
afterAll(async () => {
  outer.closeAllConnections();
  outer.close();
  await inner.close();
});

describe("a student's own page", () => {
  it("is opened by the link, and shows own takes, lens and lessons", async () => {
    const opened = await fetch(`${url}/shared/${link}`, { redirect: "manual" });
    expect([opened.status, opened.headers.get("location")]).toEqual([
      303,
      `/#/students/${held.Mara!.player}`,
    ]);
    const view = await (await asStudent(`/players/${held.Mara!.player}/view`)).json();
    expect(view.player.name).toBe("Mara");
    expect(view.takes.map((one: { id: string }) => one.id)).toEqual([held.Mara!.take]);
    expect(view.lessons.map((one: { id: string }) => one.id)).toEqual([held.Mara!.lesson]);
    const { player, take, lesson } = held.Mara!;
    for (const path of [
      ...[`/takes/${take}`, `/takes/${take}/analysis`, `/takes/${take}/feedback`, `/takes/${take}/practice`],
      ...[`/players/${player}/lessons`, `/players/${player}/lessons/${lesson}`],
      ...[
        `/players/${player}/lessons/${lesson}/1/score.musicxml`,
        `/takes/${take}/practice/1/play-along.mid`,
      ],
    ]) {
      expect((await asStudent(path)).status, path).toBe(200);
    }
  });

  it("takes the own view, and nothing else that could be written", async () => {
    const { take, player } = held.Mara!;
    await call(`/takes/${take}/feedback`, sent("PUT", { signed: "Teacher", askFirst: true }));
    const kept = await (
      await asStudent(`/takes/${take}/own-view`, sent("PUT", { own: "More room." }))
    ).json();
    expect(kept).toMatchObject({ own: "More room.", asked: true, askFirst: true, signed: "Teacher" });
    // Upon an older version nothing is overwritten: what stands is told, as it is of all feedback.
    const older = await asStudent(`/takes/${take}/own-view`, sent("PUT", { own: "Less.", version: 1 }));
    expect([older.status, await older.json()]).toMatchObject([
      409,
      { code: "changed-meanwhile", stands: { own: "More room.", version: 2 } },
    ]);
    const newer = await asStudent(`/takes/${take}/own-view`, sent("PUT", { own: "Less.", version: 2 }));
    expect(await newer.json()).toMatchObject({ own: "Less.", version: 3, signed: "Teacher" });
    for (const [path, init] of [
      [`/takes/${take}/feedback`, sent("PUT", { own: "x" })],
      [`/takes/${take}`, sent("PATCH", { title: "x" })],
      [`/takes/${take}`, { method: "DELETE" }],
      [`/takes/${take}/shares`, sent("POST", { name: "x" })],
      [`/players/${player}/shares`, sent("POST", { name: "x" })],
      [`/players/${player}/page`, sent("PATCH", { usual: {} })],
      [`/players/${player}`, { method: "DELETE" }],
      [
        "/lessons",
        sent("POST", { form: "blues-basic", key: "F", handedOn: "2026-10-01", players: [player] }),
      ],
      ["/tokens", sent("POST", { name: "x", role: "owner" })],
    ] as const) {
      expect((await asStudent(path, init)).status, `${init.method} ${path}`).toBe(403);
    }
  });

  it("answers no route with anything of another player, by whichever id", async () => {
    const { player, take, lesson } = held.Ovide!;
    const ids: Record<string, string> = {
      id: take,
      lesson,
      exercise: "1",
      share: "x",
      note: "x",
      since: "2026-10-01",
    };
    const told: string[] = [];
    for (const { method, path } of routes) {
      for (const id of [take, player]) {
        const at = path.replace(/:(\w+)/g, (_, name: string) => (name === "id" ? id : (ids[name] ?? "x")));
        if (path === "/session" || path === "/health" || path === "/ready") continue;
        const answer = await asStudent(
          at,
          method === "get" ? {} : sent(method.toUpperCase(), method === "delete" ? {} : { own: "x" }),
        );
        const text = await answer.text();
        if (path.includes(":id") && answer.ok) told.push(`${method} ${at}: ${answer.status}`);
        if (/Ovide/.test(text)) told.push(`${method} ${at} names the other`);
      }
    }
    for (const query of [`?a=${take}&b=${held.Mara!.take}`, `?players=${player},${held.Mara!.player}`]) {
      const answer = await asStudent(`/compare${query}`);
      if (answer.ok || /Ovide/.test(await answer.text())) told.push(`compare${query}`);
    }
    expect(told).toEqual([]);
    const lists = await Promise.all(
      ["/takes", "/players", "/class"].map(async (at) => (await asStudent(at)).json()),
    );
    expect(JSON.stringify(lists)).toContain("Mara");
    expect(JSON.stringify(lists)).not.toContain("Ovide");
  });

  it("is closed when the link is ended, and when the player is deleted", async () => {
    const { player } = held.Mara!;
    const shares = (await json(`/players/${player}/shares`)).shares as { id: string }[];
    const other = (await post(`/players/${held.Ovide!.player}/shares`, { name: "Ovide" })) as { id: string };
    // A link is ended on its own player's page alone.
    expect((await call(`/players/${player}/shares/${other.id}`, { method: "DELETE" })).status).toBe(404);
    await call(`/players/${player}`, { method: "DELETE" });
    expect((await asStudent(`/players/${player}/view`)).status).toBe(404);
    expect((await asStudent(`/players/${player}/lessons/${held.Mara!.lesson}`)).status).toBe(404);
    await call(`/players/${player}/restore`, { method: "POST" });
    await call(`/players/${player}/shares/${shares[0]!.id}`, { method: "DELETE" });
    expect((await asStudent(`/players/${player}/view`)).status).toBe(401);
    expect((await fetch(`${url}/shared/${link}`, { headers: { accept: "application/json" } })).status).toBe(
      404,
    );
  });
});
