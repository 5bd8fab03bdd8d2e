/** Uploads go to disk as they come, and nothing of them stays there, whoever breaks off and whenever. */
import { once } from "node:events";
import { mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { request } from "node:http";
import { connect, type Socket } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { zipSync } from "fflate";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { RunningServer } from "../../server/start.ts";
import { removeLeftUploads } from "../../server/upload-folder.ts";
import { callsTo, formOf } from "./calls.ts";
import { ARPEGGIOS, FOUR_BARS, serve, smallMidi, takeForm } from "./harness.ts";

let server: RunningServer;
const { call, corpus, ended, json } = callsTo(() => server);
const MIDI = smallMidi(ARPEGGIOS);
const usual = process.env.TMPDIR;
const place = mkdtempSync(join(tmpdir(), "uploads-"));

beforeAll(async () => {
  // Where uploads lie (os.tmpdir() reads this), so that those of others are not counted.
  process.env.TMPDIR = place;
  server = await serve();
});
afterAll(async () => {
  await server.close();
  if (usual === undefined) delete process.env.TMPDIR;
  else process.env.TMPDIR = usual;
  rmSync(place, { recursive: true, force: true });
});

const left = () => readdirSync(place).filter((name) => name.startsWith("ledgerline-upload-"));
const noneLeft = () => expect.poll(left).toEqual([]);

describe("nothing stays", () => {
  it("of a zip with many files, which become takes in their own order", async () => {
    const id = await corpus("Many");
    const names = Array.from({ length: 60 }, (_, n) => `${String(n).padStart(2, "0")}.mid`);
    // Each file another: the last pitch differs.
    const zip = zipSync(
      Object.fromEntries(names.map((name, n) => [name, smallMidi([...ARPEGGIOS, 40 + n])])),
    );
    const body = formOf({ "all.zip": zip, "loose.mid": MIDI }, { chart: FOUR_BARS });
    const job = await (await call(`/corpora/${id}/takes`, { method: "POST", body })).json();
    expect(job).toMatchObject({ total: 61 });
    expect(await ended(job.id)).toMatchObject({ done: 61, failed: 0 });
    const rows = (await (await call(`/corpora/${id}/takes?format=ndjson`)).text()).trim().split("\n");
    expect(rows.map((row) => JSON.parse(row).fileName).sort()).toEqual([...names, "loose.mid"]);
    await noneLeft();
  });

  it("of a large single file, which is refused for what it is", async () => {
    const form = takeForm({ chart: FOUR_BARS }, new Uint8Array(3 * 2 ** 20), "large.mid");
    expect((await call("/takes", { method: "POST", body: form })).status).toBe(422);
    await noneLeft();
  });

  it("of an upload that breaks off in the middle, and the service goes on", async () => {
    const id = await corpus("Broken");
    for (const path of [`/api/corpora/${id}/takes`, "/api/takes"]) {
      const type = "multipart/form-data; boundary=b";
      const headers = { "content-type": type, "content-length": String(40 * 2 ** 20) };
      const asked = request(`${server.url}${path}`, { method: "POST", headers });
      asked.on("error", () => {});
      asked.write('--b\r\ncontent-disposition: form-data; name="file"; filename="a.zip"\r\n\r\n');
      await new Promise<void>((done) => asked.write(Buffer.alloc(4 * 2 ** 20), () => done()));
      await expect.poll(() => left().length).toBe(1);
      asked.destroy();
      await noneLeft();
    }
    expect((await json(`/corpora/${id}`)).takes).toBe(0);
  });

  it("of a process that is dead, once another starts", async () => {
    // Above the greatest number that Linux gives to a process (proc(5), pid_max).
    const dead = mkdtempSync(join(place, "ledgerline-upload-4194305-"));
    const own = mkdtempSync(join(place, `ledgerline-upload-${process.pid}-`));
    writeFileSync(join(dead, "0"), MIDI);
    await removeLeftUploads();
    expect(left()).toEqual([own.split("/").at(-1)]);
    rmSync(own, { recursive: true });
  });
});

describe("slow clients", () => {
  const open = async (): Promise<Socket> => {
    const { port } = new URL(server.url);
    const socket = connect(Number(port), "127.0.0.1");
    await once(socket, "connect");
    return socket.on("error", () => {});
  };
  const healthy = async () => expect((await call("/health")).status).toBe(200);

  it("a reader that takes nothing of a table is not waited for by others", async () => {
    const id = await corpus("Unread");
    const job = await json(`/corpora/${id}/takes`, {
      method: "POST",
      body: formOf({ "a.mid": MIDI }, { chart: FOUR_BARS }),
    });
    await ended(job.id);
    const sockets = await Promise.all(Array.from({ length: 20 }, open));
    for (const socket of sockets) {
      socket.pause();
      socket.write(`GET /api/corpora/${id}/notes HTTP/1.1\r\nhost: 127.0.0.1\r\n\r\n`);
    }
    expect((await (await call(`/corpora/${id}/notes?format=ndjson`)).text()).trim().split("\n")).toHaveLength(
      16,
    );
    for (const socket of sockets) socket.resetAndDestroy();
    await healthy();
  });
});
