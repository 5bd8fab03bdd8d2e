/** A disk that is full: what would be kept is refused with words, reads go on, and room is all that it takes to go on. */
import { execFileSync, spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, statfsSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it, vi } from "vitest";
import type { RunningServer } from "../../server/start.ts";
import { openDatabase } from "../../server/store/database.ts";
import { LEAST_ROOM, NEW_STORE_ROOM } from "../../server/store/room.ts";
import { callsTo, sent } from "./calls.ts";
import { ARPEGGIOS, FOUR_BARS, serve, smallMidi, takeForm } from "./harness.ts";

vi.setConfig({ testTimeout: 300_000 });

const MB = 2 ** 20;
const place = mkdtempSync(join(tmpdir(), "ledgerline-full-"));
const disk = join(place, "disk");
execFileSync("mkdir", [disk]);
/** A disk of its own needs the right to mount one. */
const mounted = spawnSync("mount", ["-t", "tmpfs", "-o", "size=170m", "tmpfs", disk]).status === 0;
afterAll(() => {
  if (mounted) spawnSync("umount", [disk]);
  rmSync(place, { recursive: true, force: true });
});

const midi = (down: number) => smallMidi(ARPEGGIOS.map((pitch) => pitch - down));
const keep = ({ call }: ReturnType<typeof callsTo>, bytes: Uint8Array) =>
  call("/takes", { method: "POST", body: takeForm({ chart: FOUR_BARS }, bytes) });

/** A file of many MB: a text of random bytes (meta event 01 of Standard MIDI Files) before the notes. */
function largeMidi(down: number, megabytes: number): Uint8Array {
  const small = midi(down);
  const length = megabytes * MB;
  const size = [21, 14, 7, 0].map((shift, i) => ((length >> shift) & 0x7f) | (i < 3 ? 0x80 : 0));
  const text = Buffer.alloc(length, Buffer.from(crypto.getRandomValues(new Uint8Array(65_521))));
  const track = Buffer.concat([Buffer.from([0, 0xff, 0x01, ...size]), text, small.subarray(22)]);
  const head = Buffer.from(small.subarray(0, 22));
  head.writeUInt32BE(track.length, 18);
  return new Uint8Array(Buffer.concat([head, track]));
}

describe("while little room is left on the disk", () => {
  it("writes are answered 507 with words, reads and jobs go on when they can, and nothing is restarted", async () => {
    let room = 1000 * MB;
    const server = await serve({ dataDir: join(place, "a"), databaseUrl: undefined, room: () => room });
    const calls = callsTo(() => server);
    const { call, json, post, corpus, fill, ended } = calls;
    expect((await keep(calls, midi(0))).status).toBe(201);
    const evening = await corpus("c");

    room = LEAST_ROOM - 1;
    const refused = await keep(calls, midi(1));
    expect(refused.status).toBe(507);
    expect(await refused.json()).toMatchObject({
      code: "disk-full",
      todo: expect.stringContaining("Make room"),
    });
    expect(await post("/players", { name: "p" })).toMatchObject({ status: 507 });
    const { takes } = await json("/takes");
    expect(takes).toHaveLength(1);
    // What got past the first look is refused by the store itself.
    expect((await call(`/takes/${takes[0].id}`, { method: "DELETE" })).status).toBe(507);
    for (const path of ["/ready", "/players", `/takes/${takes[0].id}/analysis`])
      expect([path, (await call(path)).status]).toEqual([path, 200]);
    const form = takeForm({ chart: FOUR_BARS }, midi(2));
    expect((await call("/analyse", { method: "POST", body: form })).status).toBe(200);
    await expect(
      server.services.database.query("insert into players (id, name) values ('x', 'x')"),
    ).rejects.toMatchObject({ code: "53100" });

    // Room for small things, not for this one.
    room = LEAST_ROOM + 5 * MB;
    expect((await keep(calls, largeMidi(3, 2))).status).toBe(507);
    const job = await fill(evening, { "a.mid": midi(4) }, { chart: FOUR_BARS });
    room = 1000 * MB;
    expect(await ended(job.id)).toMatchObject({ done: 1 });
    expect((await keep(calls, midi(1))).status).toBe(201);
    expect((await call(`/takes/${takes[0].id}`, sent("PATCH", { title: "x" }))).status).toBe(200);
    await server.close();
  });

  it("a new store is not begun, and one that is there says why it cannot open", async () => {
    const folder = join(place, "a");
    const full = { code: "53100" };
    await expect(
      openDatabase({ folder: join(place, "b"), room: () => NEW_STORE_ROOM - 1 }),
    ).rejects.toMatchObject(full);
    const database = await openDatabase({ folder, room: () => 0 });
    expect((await database.query("select id from takes")).length).toBeGreaterThan(0);
    await expect(database.query("delete from takes")).rejects.toMatchObject(full);
    await database.close();
  });
});

describe.skipIf(!mounted)("a disk that does fill up (skipped where none can be mounted)", () => {
  let server: RunningServer;
  const calls = callsTo(() => server);

  it("is read on while it is full to the last byte, and written again when there is room", async () => {
    server = await serve({ dataDir: join(disk, "data"), databaseUrl: undefined });
    const statuses: number[] = [];
    while (statuses.at(-1) !== 507 && statuses.length < 12)
      statuses.push((await keep(calls, largeMidi(statuses.length, 4))).status);
    expect(statuses.slice(0, 1)).toEqual([201]);
    expect(statuses.at(-1)).toBe(507);
    const kept = statuses.filter((status) => status === 201).length;

    // Somebody else takes the rest.
    const { bavail, bsize } = statfsSync(disk);
    writeFileSync(join(disk, "other"), Buffer.alloc(bavail * bsize));
    expect(statfsSync(disk).bavail).toBe(0);
    for (let i = 0; i < 3; i++) {
      expect((await keep(calls, midi(20 + i))).status).toBe(507);
      expect((await calls.json("/takes")).takes).toHaveLength(kept);
      expect((await calls.call("/ready")).status).toBe(200);
    }
    rmSync(join(disk, "other"));
    execFileSync("mount", ["-o", "remount,size=300m", disk]);
    expect((await keep(calls, midi(30))).status).toBe(201);
    await server.close();
    const again = await openDatabase({ folder: join(disk, "data") });
    expect(await again.query("select id from takes")).toHaveLength(kept + 1);
    await again.close();
  });
});
