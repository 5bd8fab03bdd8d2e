/** A store into a file while the service works, and from it into a store of either kind, the same to the byte. */
import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { gunzipSync, gzipSync } from "node:zlib";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { sha256 } from "../../server/analysis/analyst.ts";
import { backup, type Place, restore } from "../../server/backup/command.ts";
import { checkBackup, restoreBackup } from "../../server/backup/read.ts";
import { COPIED, NOT_COPIED } from "../../server/backup/tables.ts";
import type { RunningServer } from "../../server/start.ts";
import { openDatabase } from "../../server/store/database.ts";
import { callsTo, sent } from "./calls.ts";
import { ARPEGGIOS, FOUR_BARS, serve, smallMidi, takeForm } from "./harness.ts";
import { type Postgres, postgresIsInstalled, startPostgres } from "./postgres.ts";

vi.setConfig({ testTimeout: 180_000 });

const place = mkdtempSync(join(tmpdir(), "ledgerline-backup-"));
const at = (name: string) => join(place, name);
const folder = (name: string): Place => ({ url: undefined, folder: at(name) });
const whole = at("whole.gz");
let server: RunningServer;
const { call, json, post, corpus, fill, ended } = callsTo(() => server);

/** Of several pieces of a source, the last of them not full; no MIDI. */
const LARGE = Uint8Array.from({ length: 2_500_000 }, (_, i) => (i * 7919) >> 5);

/** Letters beyond ASCII, quotes, a line's end and what looks like an escape. */
const ODD = 'Žofie "Z" \\x41\nÅ 🎹';

beforeAll(async () => {
  server = await serve({ dataDir: at("first"), databaseUrl: undefined });
  const player = await post("/players", { name: ODD, note: "n" });
  const form = takeForm({ chart: FOUR_BARS, playerId: player.id, tags: "a,b c" }, smallMidi(ARPEGGIOS));
  const { take } = await json("/takes", { method: "POST", body: form });
  await call(`/takes/${take.id}/feedback`, sent("PUT", { own: ODD }));
  await post(`/players/${player.id}/notes`, { date: "2026-03-01", text: ODD });
  await post(`/takes/${take.id}/shares`, { name: "link", days: 30 });
  await server.services.database.query("insert into sounds (take_id, file_name, bytes) values ($1, $2, $3)", [
    take.id,
    "a.wav",
    Uint8Array.from({ length: 1000 }, (_, i) => i % 256),
  ]);
  const files = { "one.mid": smallMidi(ARPEGGIOS.map((pitch) => pitch - 1)), "bad.mid": LARGE };
  await ended((await fill(await corpus("c"), files, { chart: FOUR_BARS })).id);
});
afterAll(async () => {
  await server?.close();
  rmSync(place, { recursive: true, force: true });
});

/** All that pages and programs read of takes, with the accounts as they are written. */
async function seen(url: string) {
  const read = async (path: string) => (await fetch(`${url}/api${path}`)).text();
  const takes = JSON.parse(await read("/takes")).takes as { id: string }[];
  const own = await Promise.all(
    takes.map(({ id }) =>
      Promise.all([
        read(`/takes/${id}/analysis`),
        read(`/takes/${id}/feedback`),
        read(`/takes/${id}/source`),
        read(`/takes/${id}/sound`),
      ]),
    ),
  );
  const failed = [];
  for (const { id } of JSON.parse(await read("/corpora")).corpora as { id: string }[]) {
    for (const { item } of JSON.parse(await read(`/corpora/${id}/failures`)).failures as { item: string }[]) {
      failed.push(
        sha256(
          new Uint8Array(await (await fetch(`${url}/api/corpora/${id}/failures/${item}`)).arrayBuffer()),
        ),
      );
    }
  }
  return {
    takes,
    own,
    failed,
    rest: await Promise.all(["/class", "/corpora", "/tokens", "/players"].map(read)),
  };
}

describe("a backup", () => {
  it("holds every table but those of the running service", async () => {
    const tables = await server.services.database.query<{ name: string }>(
      "select tablename as name from pg_tables where schemaname = 'public' order by 1",
    );
    expect([...COPIED.map(({ name }) => name), ...NOT_COPIED].sort()).toEqual(tables.map(({ name }) => name));
  });

  it("is made while the server holds the folder and goes on keeping takes, and is whole", async () => {
    const sending = Array.from({ length: 4 }, (_, i) =>
      call("/takes", {
        method: "POST",
        body: takeForm({ chart: FOUR_BARS, title: `t${i}` }, smallMidi(ARPEGGIOS.map((p) => p + 1 + i))),
      }),
    );
    expect(await backup(whole, folder("first"))).toMatch(
      /^Backed up \d takes, 1 players, 1 corpora and 1 tokens\.$/,
    );
    for (const { status } of await Promise.all(sending)) expect(status).toBe(201);
    expect(statSync(whole).mode & 0o777).toBe(0o600);
    const counts = await checkBackup(whole);
    expect(Object.keys(counts).sort()).toEqual(COPIED.map(({ name }) => name).sort());
    await expect(backup(whole, folder("first"))).rejects.toMatchObject({ code: "file-exists" });
    await expect(backup(at("none.gz"), folder("none"))).rejects.toMatchObject({ code: "no-store" });
  });

  it("is refused when a byte of it was changed, when it breaks off, and when it is something else", async () => {
    const text = gunzipSync(readFileSync(whole)).toString("utf8");
    const put = (content: string | Buffer) => {
      writeFileSync(at("bad.gz"), content);
      return restore(at("bad.gz"), folder("refused"));
    };
    const broken = { code: "backup-broken" };
    await expect(put(gzipSync(text.replace("march.mid", "marsh.mid")))).rejects.toMatchObject(broken);
    await expect(put(gzipSync(text.slice(0, -100)))).rejects.toMatchObject(broken);
    await expect(put(gzipSync(text.slice(0, text.lastIndexOf("\n{") + 1)))).rejects.toMatchObject(broken);
    await expect(put(readFileSync(whole).subarray(0, 2000))).rejects.toMatchObject(broken);
    await expect(put("MThd")).rejects.toMatchObject({ code: "not-a-backup" });
    await expect(put(gzipSync("{}\n"))).rejects.toMatchObject({ code: "not-a-backup" });
    const newer = text.replace(/"steps":\d+/, '"steps":999');
    await expect(put(gzipSync(newer))).rejects.toMatchObject({ code: "backup-newer" });
    await expect(restore(at("no-such.gz"), folder("x"))).rejects.toMatchObject({ code: "no-such-file" });
  });

  it("is not put over what is there, and one that fails leaves the new store empty", async () => {
    const counts = await checkBackup(whole);
    const database = await openDatabase({ folder: null });
    const wrong = { ...counts, takes: { ...counts.takes!, sha256: "0" } };
    await expect(restoreBackup(database, whole, wrong)).rejects.toMatchObject({ code: "backup-broken" });
    await restoreBackup(database, whole, counts);
    await expect(restoreBackup(database, whole, counts)).rejects.toMatchObject({ code: "store-not-empty" });
    await database.close();
    await expect(restore(whole, folder("first"))).rejects.toMatchObject({ code: "folder-in-use" });
  });
});

describe.skipIf(!postgresIsInstalled())("moving between the stores (skipped without PostgreSQL)", () => {
  let postgres: Postgres;
  beforeAll(async () => {
    postgres = await startPostgres();
  });
  afterAll(() => postgres.stop());

  it("from the embedded one to PostgreSQL and back, every row and account is the same", async () => {
    const before = await seen(server.url);
    expect(before.failed).toEqual([sha256(LARGE)]);
    const first = at("a.gz");
    await backup(first, folder("first"));
    const url = await postgres.database();
    expect(await restore(first, { url, folder: "" })).toContain("all hashes agree");
    const second = at("b.gz");
    await backup(second, { url, folder: "" });
    expect(await checkBackup(second)).toEqual(await checkBackup(first));
    const moved = await serve({ databaseUrl: url });
    expect(await seen(moved.url)).toEqual(before);
    await moved.close();
    await restore(second, folder("back"));
    const back = await serve({ dataDir: at("back"), databaseUrl: undefined });
    expect(await seen(back.url)).toEqual(before);
    await back.close();
  });
});
