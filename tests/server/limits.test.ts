/** How much, how many and how long: what is beyond is refused in words, and the service goes on. */
import { once } from "node:events";
import { request, type Server } from "node:http";
import { type AddressInfo, connect } from "node:net";
import { zipSync } from "fflate";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { createAnalyst } from "../../server/analysis/analyst.ts";
import { createApp } from "../../server/app.ts";
import type { RunningServer } from "../../server/start.ts";
import { callsTo, formOf, sent } from "./calls.ts";
import { ARPEGGIOS, FOUR_BARS, serve, smallMidi, takeForm } from "./harness.ts";

let server: RunningServer;
let guarded: Server;
let guardedUrl: string;
const { call, corpus, fill, ended, json } = callsTo(() => server);
const MIDI = smallMidi(ARPEGGIOS);

let bombs: { readonly many: Uint8Array; readonly one: Uint8Array; readonly score: Uint8Array };

beforeAll(async () => {
  // Made before there are connections, which would be given up while this process is busy.
  const zeros = new Uint8Array(45 * 2 ** 20);
  const container = `<container><rootfiles><rootfile full-path="s.xml"/></rootfiles></container>`;
  bombs = {
    many: zipSync({ "a.mid": zeros, "b.mid": zeros, "c.mid": zeros }, { level: 1 }),
    one: zipSync({ "a.mid": new Uint8Array(65 * 2 ** 20) }, { level: 1 }),
    score: zipSync(
      { "META-INF/container.xml": Buffer.from(container), "s.xml": new Uint8Array(80 * 2 ** 20) },
      { level: 1 },
    ),
  };
  server = await serve();
  guarded = createApp({ ...server.services, needsToken: true }).listen(0, "127.0.0.1");
  await once(guarded, "listening");
  guardedUrl = `http://127.0.0.1:${(guarded.address() as AddressInfo).port}`;
});
afterAll(async () => {
  guarded.closeAllConnections();
  guarded.close();
  await server.close();
});

async function expectRefused(response: Response, status: number, code: string): Promise<void> {
  expect(response.status).toBe(status);
  expect(response.headers.get("content-type")).toContain("application/problem+json");
  expect(await response.json()).toMatchObject({ code, status, todo: expect.any(String) });
}

/** A request with a heading of its own, whose body does not have to be what the heading says. */
function bare(path: string, headers: Record<string, string>, body: Uint8Array): Promise<number> {
  return new Promise((done, failed) => {
    const asked = request(`${server.url}${path}`, { method: "POST", headers }, (response) => {
      done(response.resume().statusCode!);
      asked.destroy();
    });
    asked.on("error", failed);
    asked.write(body);
  });
}

describe("size", () => {
  it("a JSON body over 2 MB, or values too deep inside others, are refused", async () => {
    await expectRefused(
      await call("/players", sent("POST", { name: "x".repeat(3_000_000) })),
      413,
      "body-too-large",
    );
    const deep = `{"name":"a","note":${"[".repeat(50_000)}${"]".repeat(50_000)}}`;
    const init = { method: "POST", headers: { "content-type": "application/json" }, body: deep };
    await expectRefused(await call("/players", init), 400, "invalid-text");
  });

  it("an upload that says it is too large is refused before it is read, and one that does not say is too", async () => {
    const type = { "content-type": "multipart/form-data; boundary=b" };
    const part = Buffer.from("--b\r\n");
    expect(await bare("/api/takes", { ...type, "content-length": String(80 * 2 ** 20) }, part)).toBe(413);
    const id = await corpus("Large");
    const path = `/api/corpora/${id}/takes`;
    expect(await bare(path, { ...type, "content-length": String(200 * 2 ** 20) }, part)).toBe(413);
    expect(await bare(path, { ...type, "transfer-encoding": "chunked" }, part)).toBe(411);
  });

  it("a second file where one is meant, and more files than are taken at once, are refused", async () => {
    const two = takeForm({ chart: FOUR_BARS }, MIDI);
    two.append("file", new Blob([MIDI as BlobPart]), "second.mid");
    await expectRefused(await call("/takes", { method: "POST", body: two }), 400, "invalid-upload");
    const id = await corpus("Many");
    const body = `${Array.from(
      { length: 5001 },
      (_, n) => `--b\r\ncontent-disposition: form-data; name="file"; filename="${n}.mid"\r\n\r\nx\r\n`,
    ).join("")}--b--\r\n`;
    const init = { method: "POST", headers: { "content-type": "multipart/form-data; boundary=b" }, body };
    await expectRefused(await call(`/corpora/${id}/takes`, init), 400, "invalid-upload");
  });

  it("a zip that unfolds to too much is refused, as one file and as many", async () => {
    const id = await corpus("Bombs");
    const send = (zip: Uint8Array) =>
      call(`/corpora/${id}/takes`, {
        method: "POST",
        body: formOf({ "bomb.zip": zip }, { chart: FOUR_BARS }),
      });
    expect(bombs.many.length).toBeLessThan(2 * 2 ** 20);
    await expectRefused(await send(bombs.many), 422, "zip-too-large");
    await expectRefused(await send(bombs.one), 422, "zip-too-large");
    await expectRefused(await send(Buffer.from("PK\u0003\u0004 and no more")), 422, "bad-zip");
  });

  it("a zip that lies about what it unfolds to gives no more than it said", async () => {
    const id = await corpus("Lie");
    const zip = zipSync({ "a.mid": new Uint8Array(8 * 2 ** 20) }, { level: 1 });
    const view = new DataView(zip.buffer, zip.byteOffset);
    // PKWARE APPNOTE 4.3.7 and 4.3.12: uncompressed size, in the local heading and in the central directory.
    const central = zip.findIndex((_, i) => i + 4 <= zip.length && view.getUint32(i, true) === 0x02014b50);
    view.setUint32(22, 1000, true);
    view.setUint32(central + 24, 1000, true);
    const response = await call(`/corpora/${id}/takes`, {
      method: "POST",
      body: formOf({ "lie.zip": zip }, { chart: FOUR_BARS }),
    });
    if (response.status === 202) {
      expect(await ended((await response.json()).id)).toMatchObject({ done: 0, failed: 1 });
      const [failure] = (await json(`/corpora/${id}/failures`)).failures;
      const bytes = await (await call(`/corpora/${id}/failures/${failure.item}`)).arrayBuffer();
      expect(bytes.byteLength).toBeLessThanOrEqual(1000);
    } else await expectRefused(response, 422, "bad-zip");
  });

  it("a score inside a compressed MusicXML file that unfolds to too much fails alone", async () => {
    const id = await corpus("Score");
    const job = await fill(id, { "bomb.mxl": bombs.score, "good.mid": MIDI }, { chart: FOUR_BARS });
    expect(await ended(job.id)).toMatchObject({ done: 1, failed: 1 });
  });
});

describe("time", () => {
  /** What a connection answers to a part of a request, and that it is closed then. */
  function dribble(port: string, first: string): Promise<string> {
    return new Promise((done) => {
      const socket = connect(Number(port), "127.0.0.1");
      let text = "";
      socket.on("data", (part) => {
        text += part.toString();
      });
      socket.on("close", () => done(text));
      socket.write(first);
    });
  }

  it("a heading and a body that do not come in end the connection", async () => {
    const impatient = await serve({ patience: { heading: 400, request: 1200, taking: 1200 } });
    const { host, port } = new URL(impatient.url);
    // RFC 9110, 15.5.9: 408, the request was not complete within the time that the server waits.
    expect(await dribble(port, `GET /api/health HTTP/1.1\r\nhost: ${host}\r\nx-slow: `)).toMatch(
      /^HTTP\/1\.1 408 /,
    );
    const heading = `POST /api/players HTTP/1.1\r\nhost: ${host}\r\ncontent-type: application/json\r\n`;
    expect(await dribble(port, `${heading}content-length: 100\r\n\r\n{"name":`)).toMatch(
      /^HTTP\/1\.1 (408|400) /,
    );
    expect((await fetch(`${impatient.url}/api/health`)).status).toBe(200);
    await impatient.close();
  });

  it("an analysis that does not end is given up with a reason", async () => {
    const analyst = createAnalyst(1, 1);
    await expect(analyst.analyse({ bytes: MIDI, chart: FOUR_BARS, options: {} })).rejects.toMatchObject({
      code: "analysis-too-long",
    });
    await analyst.close();
  });
});

describe("rate, where tokens are needed", () => {
  it("more than twenty sign-ins a minute are refused, and it says when to come back", async () => {
    const signIn = () =>
      fetch(`${guardedUrl}/api/session`, sent("POST", { token: `guess-${Math.random()}-guess-guess` }));
    let last = await signIn();
    for (let i = 0; i < 25 && last.status === 401; i++) last = await signIn();
    // RFC 6585, section 4: 429; RFC 9110, 10.2.3: Retry-After in seconds.
    expect(Number(last.headers.get("retry-after"))).toBeGreaterThan(0);
    expect(Number(last.headers.get("retry-after"))).toBeLessThanOrEqual(60);
    await expectRefused(last, 429, "too-many-requests");
  });

  it("a class behind one router is not one: each token is counted for itself, and guesses hold up nobody's", async () => {
    const tokens = await Promise.all(
      ["a", "b", "c"].map(
        async (name) => (await json("/tokens", sent("POST", { name, role: "owner" }))).token,
      ),
    );
    const ask = async (token: string) =>
      (await fetch(`${guardedUrl}/api/corpora`, { headers: { authorization: `Bearer ${token}` } })).status;
    const refused: number[] = [];
    for (let i = 0; i < 125; i++) refused.push(await ask(`guessed-${i}-guessed-guessed`));
    expect(refused.at(0)).toBe(401);
    expect(refused.at(-1)).toBe(429);
    // 900 requests of one address in a minute, 300 of each token.
    for (let round = 0; round < 30; round++) {
      const statuses = await Promise.all(
        tokens.flatMap((token) => Array.from({ length: 10 }, () => ask(token))),
      );
      expect(new Set(statuses)).toEqual(new Set([200]));
    }
  });

  it("more than six hundred requests a minute are refused, reads too", async () => {
    const statuses: number[] = [];
    for (let round = 0; round < 13; round++) {
      const answers = await Promise.all(Array.from({ length: 50 }, () => fetch(`${guardedUrl}/api/health`)));
      statuses.push(...answers.map((answer) => answer.status));
    }
    expect(statuses.filter((status) => status === 200).length).toBeLessThanOrEqual(600);
    expect(new Set(statuses)).toEqual(new Set([200, 429]));
    // On the loopback address the only user is the owner of the machine.
    expect((await call("/health")).status).toBe(200);
  });
});
