/** From a recording to the account, through the API and the command line. */

import { execFile } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";
import { unzipSync } from "fflate";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { createListener } from "../../server/listen/listener.ts";
import type { RunningServer } from "../../server/start.ts";
import type { AccountNote } from "../../src/account.ts";
import { readTake } from "../../src/ingest/index.ts";
import { heardLike } from "../listen/heard-takes.ts";
import { noise, organ, piano, singing, tone, wave } from "../listen/sounds.ts";
import { type Calls, callsTo } from "./calls.ts";
import { ARPEGGIOS, FOUR_BARS, serve, smallMidi, takeForm } from "./harness.ts";

const NETWORK = fileURLToPath(new URL("../../src/listen/network/piano.onnx", import.meta.url));

let server: RunningServer;
const { call, json, corpus, fill, ended }: Calls = callsTo(() => server);
beforeAll(async () => {
  server = await serve();
});
afterAll(() => server.close());

const post = (path: string, fields: Record<string, string>, bytes: Uint8Array, name: string) =>
  call(path, { method: "POST", body: takeForm(fields, bytes, name) });

/** The arpeggios of `FOUR_BARS`, a quarter note a half second, as a piano of sines plays them. */
const played = () =>
  wave(
    piano(
      ARPEGGIOS.map((pitch, i) => ({ pitch, onset: 0.5 + i / 2, end: 0.95 + i / 2 })),
      9,
    ),
  );

const HEARD = heardLike(readTake(smallMidi(ARPEGGIOS), { name: "a.mid" }), (note) => note);

describe("what cannot be heard is refused in words", () => {
  it.each([
    ["silence", wave(new Float32Array(32_000)), "sound-silent", /silent/],
    ["a moment", wave(tone(440, 0.3)), "sound-too-short", /0.3 seconds/],
    ["a broken file", Uint8Array.from([...wave(tone(440, 2)).subarray(0, 30)]), "unreadable-sound", /WAVE/],
  ])("%s", async (_name, bytes, code, words) => {
    const response = await post("/analyse", { chart: FOUR_BARS }, bytes, "solo.wav");
    expect(response.status).toBe(422);
    const problem = await response.json();
    expect(problem).toMatchObject({ code, todo: expect.stringMatching(/\w/) });
    expect(problem.detail).toMatch(words);
  });

  it("a file that is no sound, where only sound is listened to", async () => {
    const response = await post("/listen", {}, smallMidi(ARPEGGIOS), "march.mid");
    expect(await response.json()).toMatchObject({ code: "no-sound" });
  });

  it("in the stream of progress as well", async () => {
    const response = await post("/listen", {}, wave(new Float32Array(32_000)), "solo.wav");
    const lines = (await response.text())
      .trim()
      .split("\n")
      .map((line) => JSON.parse(line));
    expect(lines.at(-1)).toMatchObject({ problem: { code: "sound-silent" } });
  });
});

describe("the bytes of a recording", () => {
  it.each([
    ["are moved where they are given away", true, 0],
    ["stay where they are needed again", false, wave(new Float32Array(32_000)).length],
  ])("%s", async (_name, given, left) => {
    const listener = createListener();
    const bytes = wave(new Float32Array(32_000));
    await expect(listener.sourceOf(bytes, "solo.wav", { given })).rejects.toThrow(/silent/);
    expect(bytes.length).toBe(left);
    await listener.close();
  });

  it("stay where others lie beside them", async () => {
    const listener = createListener();
    const silence = wave(new Float32Array(32_000));
    const both = new Uint8Array(silence.length + 1);
    both.set(silence);
    const bytes = both.subarray(0, silence.length);
    await expect(listener.sourceOf(bytes, "solo.wav", { given: true })).rejects.toThrow(/silent/);
    expect(bytes).toEqual(silence);
    await listener.close();
  });
});

describe("a document of heard notes", () => {
  it("is kept, read, analysed anew and given back like any source", async () => {
    const kept = await (await post("/takes", { chart: FOUR_BARS }, HEARD, "solo.mp3")).json();
    expect(kept.analysis.source.format).toBe("sound");
    expect(kept.take).toMatchObject({ fileName: "solo.mp3", sound: false });
    const source = await call(`/takes/${kept.take.id}/source`);
    expect(source.headers.get("content-disposition")).toContain("solo.mp3.heard.json");
    expect(new Uint8Array(await source.arrayBuffer())).toEqual(HEARD);
    const changed = await json(`/takes/${kept.take.id}`, {
      method: "PATCH",
      headers: { "content-type": "application/json" },
      body: JSON.stringify({ chart: "| C7 | C7 | C7 | C7 |" }),
    });
    expect(changed.analysis.notes).toHaveLength(ARPEGGIOS.length);
  });

  it("may have its recording beside it, which goes with the take or by itself", async () => {
    const { take } = await (await post("/takes", { chart: FOUR_BARS }, HEARD, "solo.mp3")).json();
    expect((await call(`/takes/${take.id}/sound`)).status).toBe(404);
    const sound = wave(tone(440, 1));
    const keep = () =>
      call(`/takes/${take.id}/sound`, { method: "PUT", body: takeForm({}, sound, "solo.wav") });
    expect((await keep()).status).toBe(204);
    expect((await json(`/takes/${take.id}`)).sound).toBe(true);
    const back = await call(`/takes/${take.id}/sound`);
    expect(back.headers.get("content-type")).toContain("audio/");
    expect(new Uint8Array(await back.arrayBuffer())).toEqual(sound);
    expect((await call(`/takes/${take.id}/sound`, { method: "DELETE" })).status).toBe(204);
    expect((await json(`/takes/${take.id}`)).sound).toBe(false);
    await keep();
    await call(`/takes/${take.id}`, { method: "DELETE" });
    expect((await call(`/takes/${take.id}/sound`)).status).toBe(404);
    const notSound = await call(`/takes/${take.id}/sound`, { method: "PUT", body: takeForm({}, HEARD) });
    expect(notSound.status).toBe(404);
  });
});

describe.skipIf(!existsSync(NETWORK))("a recording, by the network (src/listen/network/piano.onnx)", () => {
  const found = (notes: readonly AccountNote[]) =>
    ARPEGGIOS.filter((pitch, i) =>
      notes.some((note) => note.pitch === pitch && Math.abs(note.onset - 0.5 - i / 2) < 0.05),
    ).length;

  it("is analysed", async () => {
    const account = await (await post("/analyse", { chart: FOUR_BARS }, played(), "solo.wav")).json();
    expect(account.source).toMatchObject({ format: "sound", name: "solo.wav" });
    expect(found(account.notes)).toBeGreaterThanOrEqual(ARPEGGIOS.length - 1);
    expect(account.warnings.map((warning: { code: string }) => warning.code)).toContain("heard-from-sound");
  });

  it("is heard with its progress, and kept where the teacher says so", async () => {
    const response = await post(
      "/listen",
      {},
      wave(
        piano(
          [
            { pitch: 60, onset: 0.5, end: 1 },
            { pitch: 64, onset: 1, end: 1.5 },
            { pitch: 67, onset: 1.5, end: 2 },
          ],
          2.5,
        ),
      ),
      "c.wav",
    );
    const lines = (await response.text())
      .trim()
      .split("\n")
      .map((line) => JSON.parse(line));
    expect(lines[0].progress).toBeGreaterThan(0);
    expect(lines.at(-1).heard.notes.map((note: { pitch: number }) => note.pitch)).toEqual(
      expect.arrayContaining([60, 64, 67]),
    );
    const { take } = await (
      await post("/takes", { chart: FOUR_BARS, keepSound: "true" }, played(), "solo.wav")
    ).json();
    expect(take.sound).toBe(true);
    expect(new Uint8Array(await (await call(`/takes/${take.id}/sound`)).arrayBuffer())).toEqual(played());
    // The whole of what is held on its player brings it along, under a name that says what it is.
    const { playerId } = await (
      await call(`/takes/${take.id}`, {
        method: "PATCH",
        headers: { "content-type": "application/json" },
        body: JSON.stringify({ player: "Runa" }),
      })
    )
      .json()
      .then((changed) => changed.take);
    const zip = new Uint8Array(await (await call(`/players/${playerId}/export.zip`)).arrayBuffer());
    expect(unzipSync(zip)[`${take.id}/sound.wav`]).toEqual(played());
  });

  it("is no piano when it is noise", async () => {
    const response = await post("/analyse", { chart: FOUR_BARS }, wave(noise(4, 0.3)), "noise.wav");
    expect(response.status).toBe(422);
    expect((await response.json()).code).toMatch(/no-piano-heard|piano-unsure/);
  });

  it.each([
    ["someone who sings", singing([57, 60, 62, 64, 62, 60, 57, 55]), /voices/],
    [
      "an organ",
      organ([
        [48, 60, 64, 67],
        [53, 60, 65, 69],
        [55, 59, 62, 67],
      ]),
      /other instruments/,
    ],
  ])("is no piano when it is %s, and is told by name", async (_name, sound, words) => {
    const response = await post("/analyse", { chart: FOUR_BARS }, wave(sound), "other.wav");
    expect(response.status).toBe(422);
    expect(await response.json()).toMatchObject({
      code: "others-heard",
      detail: expect.stringMatching(words),
    });
  });

  it("comes in a corpus too, of which only the notes stay", async () => {
    const id = await corpus("Phones");
    const job = await fill(id, { "solo.wav": played() }, { chart: FOUR_BARS });
    expect(await ended(job.id)).toMatchObject({ done: 1, failed: 0 });
    const rows = await server.services.database.query<{ bytes: Uint8Array }>(
      "select s.bytes from sources s join takes t on t.source = s.sha256 where t.corpus_id = $1",
      [id],
    );
    expect(readTake(rows[0]!.bytes, { name: "solo.wav" }).format).toBe("sound");
  });

  it("is analysed by the command line", async () => {
    const folder = mkdtempSync(join(tmpdir(), "ledgerline-"));
    try {
      writeFileSync(join(folder, "solo.wav"), played());
      const run = fileURLToPath(new URL("../../server/run.js", import.meta.url));
      const file = join(folder, "solo.wav");
      const args = [run, "cli", "analyse", file, "--chart", FOUR_BARS, "--out", folder];
      await promisify(execFile)(process.execPath, args);
      const account = JSON.parse(readFileSync(join(folder, "solo.json"), "utf8"));
      expect(found(account.notes)).toBeGreaterThanOrEqual(ARPEGGIOS.length - 1);
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});
