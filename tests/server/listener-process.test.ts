/** The process that hears: killed, cancelled or at rest, it takes nothing else with it, and what broke is told in words. */
import { readdirSync, readFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { createHearer, HearerEnded } from "../../server/listen/hearer.ts";
import { createListener } from "../../server/listen/listener.ts";
import type { RunningServer } from "../../server/start.ts";
import { piano, wave } from "../listen/sounds.ts";
import { type Calls, callsTo } from "./calls.ts";
import { ARPEGGIOS, FOUR_BARS, serve, takeForm } from "./harness.ts";

let server: RunningServer;
const { call, corpus, fill, ended }: Calls = callsTo(() => server);
beforeAll(async () => {
  server = await serve();
});
afterAll(() => server.close());
// None is left that rests.
beforeEach(async () => {
  for (const pid of hearing()) process.kill(pid, "SIGKILL");
  await expect.poll(hearing).toEqual([]);
});

/** The arpeggios of `FOUR_BARS`, a quarter note a half second. */
const PLAYED = piano(
  ARPEGGIOS.map((pitch, i) => ({ pitch, onset: 0.5 + i / 2, end: 0.95 + i / 2 })),
  9,
);
/** As loud as is said: each test has a recording of its own, since the notes of those that were heard are remembered. */
const short = (level: number) => wave(PLAYED.map((value) => value * level));
/** Over and over, so that there is time to end what hears it. */
const long = (level: number) =>
  wave(Float32Array.from({ length: 4 * PLAYED.length }, (_, i) => level * PLAYED[i % PLAYED.length]!));

/** Processes of this one that hear, as proc(5) lists them. */
function hearing(): number[] {
  return readdirSync("/proc")
    .map(Number)
    .filter((pid) => {
      try {
        const stat = readFileSync(`/proc/${pid}/stat`, "utf8").split(") ").at(-1)!.split(" ");
        const command = readFileSync(`/proc/${pid}/cmdline`, "utf8");
        return Number(stat[1]) === process.pid && stat[0] !== "Z" && /threads\/hear/.test(command);
      } catch {
        return false;
      }
    });
}

const uploads = () =>
  readdirSync(tmpdir()).filter((name) => name.startsWith(`ledgerline-upload-${process.pid}-`));

async function listenTo(bytes: Uint8Array, signal?: AbortSignal) {
  const body = takeForm({}, bytes, "solo.wav");
  const response = await call("/listen", { method: "POST", body, ...(signal && { signal }) });
  const lines = response.body!.pipeThrough(new TextDecoderStream());
  return { response, lines };
}

/** Reads lines until a share was told, and gives back how to read the others. */
async function begun(bytes: Uint8Array, signal?: AbortSignal) {
  const { lines } = await listenTo(bytes, signal);
  const reader = lines.getReader();
  const first = await reader.read();
  expect(first.value).toContain("progress");
  return async () => {
    let text = "";
    for (;;) {
      const { done, value } = await reader.read();
      if (done) return text.trim().split("\n").at(-1)!;
      text += value;
    }
  };
}

describe.skipIf(process.platform !== "linux")("the process that hears", { timeout: 180_000 }, () => {
  it("is told in words when it was killed; the server answers on, and the next one hears", async () => {
    const rest = await begun(long(1));
    const [pid] = hearing();
    process.kill(pid!, "SIGKILL");
    expect(JSON.parse(await rest())).toMatchObject({
      problem: { code: "listening-broke-off", todo: expect.stringMatching(/\w/) },
    });
    expect((await call("/health")).status).toBe(200);
    const again = await begun(short(1));
    expect(JSON.parse(await again()).heard.notes.length).toBeGreaterThanOrEqual(ARPEGGIOS.length - 1);
    await expect.poll(uploads).toEqual([]);
  });

  it("is told in words where an account was asked for", async () => {
    const answer = call("/analyse", {
      method: "POST",
      body: takeForm({ chart: FOUR_BARS }, long(0.9), "solo.wav"),
    });
    await expect.poll(hearing, { timeout: 60_000 }).toHaveLength(1);
    process.kill(hearing()[0]!, "SIGKILL");
    expect((await answer).status).toBe(500);
    expect(await (await answer).json()).toMatchObject({ code: "listening-broke-off" });
  });

  it("is killed over a recording of a corpus: the recording is kept, and heard again", async () => {
    const id = await corpus("Killed");
    const sound = short(0.5);
    const job = await fill(id, { "solo.wav": sound }, { chart: FOUR_BARS });
    await expect.poll(hearing, { timeout: 60_000 }).toHaveLength(1);
    process.kill(hearing()[0]!, "SIGKILL");
    const kept = await server.services.database.query<{ size: number }>(
      "select octet_length(s.bytes) as size from items i join sources s on s.sha256 = i.source where i.job_id = $1",
      [job.id],
    );
    expect(kept).toEqual([{ size: sound.length }]);
    expect(await ended(job.id)).toMatchObject({ done: 1, failed: 0 });
  });

  it("ends when whoever asked has gone, and so does what was written for it", async () => {
    const gone = new AbortController();
    const rest = await begun(long(0.8), gone.signal);
    expect(uploads().length).toBeGreaterThan(0);
    gone.abort();
    await expect(rest()).rejects.toThrow();
    await expect.poll(hearing).toEqual([]);
    await expect.poll(uploads).toEqual([]);
  });

  it("ends over what it cannot read, or when it is closed; else it hears the next one too", async () => {
    const hearer = createHearer(200);
    const task = { file: "/nowhere/solo.wav", name: "solo.wav", network: "none" };
    const never = new AbortController().signal;
    await expect(hearer.hear(task, () => {}, never)).rejects.toThrow(HearerEnded);
    const listener = createListener();
    await expect(listener.sourceOf(wave(new Float32Array(32_000)), "solo.wav")).rejects.toThrow(/silent/);
    const [pid] = hearing();
    // It hears the next one as well.
    await expect(listener.sourceOf(wave(new Float32Array(40_000)), "solo.wav")).rejects.toThrow(/silent/);
    expect(hearing()).toEqual([pid]);
    await listener.close();
    await expect.poll(hearing).toEqual([]);
  });

  it("is given up in words when it takes too long", async () => {
    const listener = createListener(undefined, 1500);
    await expect(listener.sourceOf(long(0.7), "solo.wav")).rejects.toMatchObject({
      code: "listening-too-long",
    });
    await expect.poll(hearing).toEqual([]);
    await listener.close();
  });
});
