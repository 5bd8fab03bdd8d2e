import type { Server } from "node:http";
import type { AddressInfo } from "node:net";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { createApp } from "../../server/app.ts";
import type { RunningServer } from "../../server/start.ts";
import { createToken } from "../../server/store/tokens.ts";
import { ARPEGGIOS, FOUR_BARS, serve, smallMidi, takeForm } from "./harness.ts";

let inner: RunningServer;
let outer: Server;
let url: string;
let teacher: string;
let take: string;
let other: string;

const ask = (path: string, headers: Record<string, string>, method = "GET", body?: unknown) =>
  fetch(`${url}${path}`, {
    method,
    redirect: "manual",
    headers: { ...headers, ...(body === undefined ? {} : { "content-type": "application/json" }) },
    ...(body === undefined ? {} : { body: JSON.stringify(body) }),
  });
const asTeacher = () => ({ authorization: `Bearer ${teacher}` });

beforeAll(async () => {
  inner = await serve();
  outer = createApp({ ...inner.services, needsToken: true }).listen(0, "127.0.0.1");
  await new Promise((done) => outer.once("listening", done));
  url = `http://127.0.0.1:${(outer.address() as AddressInfo).port}`;
  const add = async (player: string, down: number) => {
    const response = await fetch(`${inner.url}/api/takes`, {
      method: "POST",
      body: takeForm({ chart: FOUR_BARS, player }, smallMidi(ARPEGGIOS.map((pitch) => pitch - down))),
    });
    return (await response.json()).take as { id: string; playerId: string };
  };
  const mara = await add("Mara", 0);
  take = mara.id;
  other = (await add("Ove", 12)).id;
  teacher = (
    await createToken(inner.services.database, { name: "T", role: "teacher", scope: [mara.playerId] })
  ).token;
});
afterAll(async () => {
  outer.closeAllConnections();
  outer.close();
  await inner.close();
});

describe("a read-only link", () => {
  it("is made, listed and ended by the player's own teacher, not by another's", async () => {
    expect((await ask(`/api/takes/${other}/shares`, asTeacher(), "POST", {})).status).toBe(404);
    expect((await ask(`/api/takes/${other}/shares`, asTeacher())).status).toBe(404);
    const made = await ask(`/api/takes/${take}/shares`, asTeacher(), "POST", { name: "For Mara" });
    expect(made.status).toBe(201);
    const { shares } = await (await ask(`/api/takes/${take}/shares`, asTeacher())).json();
    expect(shares).toMatchObject([{ name: "For Mara" }]);
    expect(JSON.stringify(shares)).not.toContain("token");
  });

  it("ends by itself after the days that it was made for", async () => {
    const made = await ask(`/api/takes/${take}/shares`, asTeacher(), "POST", { name: "A week", days: 7 });
    const { id, path } = await made.json();
    const listed = async () => {
      const { shares } = await (await ask(`/api/takes/${take}/shares`, asTeacher())).json();
      return shares.find((share: { id: string }) => share.id === id);
    };
    const { createdAt, expiresAt } = await listed();
    expect((Date.parse(expiresAt) - Date.parse(createdAt)) / 86_400_000).toBe(7);
    const opened = await ask(path, {});
    const cookie = { cookie: opened.headers.get("set-cookie")!.split(";")[0]! };
    expect((await ask(`/api/takes/${take}`, cookie)).status).toBe(200);
    // A week goes by.
    await inner.services.database.query(
      "update tokens set expires_at = expires_at - interval '7 days' where id = $1",
      [id],
    );
    expect((await ask(path, {})).status).toBe(404);
    expect((await ask(`/api/takes/${take}`, cookie)).status).toBe(401);
    expect(await listed()).toBeUndefined();
    for (const days of [0, -1, 1.5, 10_000]) {
      expect((await ask(`/api/takes/${take}/shares`, asTeacher(), "POST", { days })).status).toBe(400);
    }
  });

  it("opens the take to be read with all that its page needs, changes nothing, and shows no other", async () => {
    const { id, path } = await (await ask(`/api/takes/${take}/shares`, asTeacher(), "POST", {})).json();
    const opened = await ask(path, {});
    expect(opened.status).toBe(303);
    expect(opened.headers.get("location")).toBe(`/#/read/${take}`);
    const cookie = { cookie: opened.headers.get("set-cookie")!.split(";")[0]! };
    for (const part of ["", "/analysis", "/feedback", "/practice", "/page.html"]) {
      expect((await ask(`/api/takes/${take}${part}`, cookie)).status, part).toBe(200);
    }
    expect((await ask(`/api/takes/${take}/feedback`, cookie, "PUT", { own: "mine" })).status).toBe(403);
    expect((await ask(`/api/takes/${take}/shares`, cookie)).status).toBe(403);
    expect((await ask(`/api/takes/${other}/page.html`, cookie)).status).toBe(404);

    expect((await ask(`/api/takes/${take}/shares/${id}`, asTeacher(), "DELETE")).status).toBe(204);
    expect((await ask(path, {})).status).toBe(404);
    expect((await ask(`/api/takes/${take}`, cookie)).status).toBe(401);
  });
});
