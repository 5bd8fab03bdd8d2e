/**
 * Stores of every schema since the first release, opened by today's program. Each file in `old-stores` is what the
 * program of its time left on a PostgreSQL server, as pg_dump wrote it, without the queue; they were made from the
 * history of this repository, and are never made anew.
 */
import { spawn } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { gunzipSync } from "node:zlib";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { createAnalyst } from "../../server/analysis/analyst.ts";
import { type Database, openDatabase } from "../../server/store/database.ts";
import { migrate, STEP_COUNT } from "../../server/store/migrations.ts";
import { refreshAnalyses } from "../../server/store/takes.ts";
import { ANALYSIS_VERSION } from "../../src/analyse.ts";
import { callsTo } from "./calls.ts";
import { serve } from "./harness.ts";
import { holdStore } from "./held-store.ts";
import { postgresIsInstalled, startPostgres } from "./postgres.ts";

vi.setConfig({ testTimeout: 300_000 });

const FOLDER = new URL("old-stores/", import.meta.url);
const OLD = readdirSync(FOLDER).sort();
const sqlOf = (name: string) => readFileSync(new URL(name, FOLDER), "utf8");
const place = mkdtempSync(join(tmpdir(), "ledgerline-old-"));
beforeAll(holdStore);
afterAll(() => rmSync(place, { recursive: true, force: true }));

/** What stands in every old store: a player, a take that was analysed, a chart, a corpus whose one file failed. */
async function expectKept(database: Database): Promise<void> {
  const [take] = await database.query<Record<string, unknown>>(
    `select t.title, t.tags, to_char(t.played_on, 'YYYY-MM-DD') as date, t.feedback ->> 'own' as own, p.name, p.note,
       a.version, a.account from takes t join players p on p.id = t.player_id join analyses a on a.key = t.analysis`,
  );
  expect(take).toMatchObject({
    title: "An old take",
    tags: ["old", "kept"],
    date: "2026-02-03",
    own: "I rushed",
    name: "Ilvi Oldenkamp",
    note: "left-handed",
  });
  const account = JSON.parse(gunzipSync(take!.account as Uint8Array).toString("utf8"));
  expect(account.notes).toHaveLength(16);
  const [failed] = await database.query<Record<string, unknown>>(
    `select i.state, i.file_name as file, c.name from items i join corpora c on c.id = i.corpus_id`,
  );
  expect(failed).toEqual({ state: "failed", file: "bad.mid", name: "Old corpus" });
}

async function upgradesAll(database: Database): Promise<void> {
  const analyst = createAnalyst(1);
  for (const name of OLD) {
    await database.script("drop schema public cascade; create schema public");
    await database.script(sqlOf(name));
    await migrate(database);
    await expectKept(database);
    const steps = await database.query<{ step: number }>("select step from migrations order by step");
    expect([name, steps.length]).toEqual([name, STEP_COUNT]);
    expect(await refreshAnalyses(database, analyst, (_id, error) => expect(error).toBeNull())).toBeLessThan(
      2,
    );
    const versions = await database.query(
      "select a.version from takes t join analyses a on a.key = t.analysis",
    );
    expect([name, versions]).toEqual([name, [{ version: ANALYSIS_VERSION }]]);
    await expectKept(database);
  }
  await analyst.close();
}

/** Upgrades in a process of its own that is killed after so many statements. */
function killedAfter(statements: number, where: string): Promise<NodeJS.Signals | null> {
  const args = ["--import", "tsx", "tests/server/killed-upgrade.ts", where, String(statements)];
  const child = spawn("node", args, { stdio: "ignore" });
  return new Promise((done) => child.once("exit", (_code, signal) => done(signal)));
}

describe("stores of every schema since the first release", () => {
  it("are all here up to the newest step, none left out", () => {
    const steps = OLD.map((name) => Number(/^step-(\d\d)\.sql$/.exec(name)![1]));
    expect(steps).toEqual(Array.from({ length: steps.length }, (_, i) => 3 + i));
    expect(steps.length).toBeGreaterThanOrEqual(16);
    expect(steps.at(-1)).toBe(STEP_COUNT);
  });

  it("open in the embedded store with all that they hold, and are analysed anew", async () => {
    const database = await openDatabase({ folder: null });
    await upgradesAll(database);
    await database.close();
  });

  it.skipIf(!postgresIsInstalled())(
    "open on a PostgreSQL server too, also after upgrades that were killed (skipped where it is not installed)",
    async () => {
      const postgres = await startPostgres();
      const url = await postgres.database();
      const database = await openDatabase({ url });
      await upgradesAll(database);
      await database.script("drop schema public cascade; create schema public");
      await database.script(sqlOf(OLD[0]!));
      expect(await killedAfter(20, url)).toBe("SIGKILL");
      await migrate(database);
      await expectKept(database);
      await database.close();
      postgres.stop();
    },
  );
});

describe("an old data folder", () => {
  it("survives upgrades that are killed again and again, and then opens as it was", async () => {
    const folder = join(place, "killed");
    const before = await openDatabase({ folder });
    await before.script(sqlOf(OLD[0]!));
    await before.close();
    for (const statements of [3, 20, 60]) expect(await killedAfter(statements, folder)).toBe("SIGKILL");
    const server = await serve({ dataDir: folder, databaseUrl: undefined });
    await expectKept(server.services.database);
    const { json } = callsTo(() => server);
    expect((await json("/takes")).takes).toMatchObject([{ title: "An old take", player: "Ilvi Oldenkamp" }]);
    await server.close();
  });

  it("of another version of the database is told by one line, and left as it is", async () => {
    const folder = join(place, "killed");
    writeFileSync(join(folder, "PG_VERSION"), "12\n");
    await expect(openDatabase({ folder })).rejects.toMatchObject({ code: "folder-of-other-version" });
    expect(readFileSync(join(folder, "PG_VERSION"), "utf8")).toBe("12\n");
  });
});
