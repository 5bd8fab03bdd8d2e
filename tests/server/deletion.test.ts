/** A player may be a minor: what is held on one player can be had as a whole, and goes as a whole. */
import { unzipSync } from "fflate";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { RunningServer } from "../../server/start.ts";
import { deleteOld, purgeDeleted } from "../../server/store/purge.ts";
import { callsTo, sent } from "./calls.ts";
import { ARPEGGIOS, FOUR_BARS, serve, smallMidi, takeForm } from "./harness.ts";

let server: RunningServer;
const { call, json, post, corpus, fill, ended } = callsTo(() => server);
const midi = (n: number) => smallMidi(ARPEGGIOS.map((pitch) => pitch - 12 + n));

beforeAll(async () => {
  server = await serve();
});
afterAll(() => server.close());

/** A player with a take of their own, one in a corpus, a failed file, a waiting one, feedback and a link. */
async function playerWithEverything(name: string, n: number) {
  const form = takeForm({ chart: FOUR_BARS, player: name, title: `Solo of ${name}` }, midi(n), `${name}.mid`);
  const { take } = await json("/takes", { method: "POST", body: form });
  await call(`/takes/${take.id}/feedback`, sent("PUT", { own: `own words of ${name}` }));
  const share = await post(`/takes/${take.id}/shares`, { name: `link for ${name}` });
  const id = await corpus(`Class of ${name}`);
  const job = await fill(
    id,
    { [`${name}-2.mid`]: midi(n + 1), [`${name}-bad.mid`]: `no MIDI, but words of ${name}` },
    { chart: FOUR_BARS, player: name },
  );
  expect(await ended(job.id)).toMatchObject({ done: 1, failed: 1 });
  return { player: take.playerId as string, take: take.id as string, share, corpus: id };
}

/** Every row of every table of the store and of its queue, as one text. */
async function everything(): Promise<string> {
  const { database } = server.services;
  const tables = await database.query<{ name: string }>(
    `select quote_ident(table_schema) || '.' || quote_ident(table_name) as name from information_schema.tables
     where table_schema in ('public', 'pgboss') and table_type = 'BASE TABLE'`,
  );
  let text = "";
  for (const { name } of tables) {
    // Bytes as text, so that what a file says is found too.
    const rows = await database.query<{ row: string }>(
      name === "public.sources"
        ? "select sha256 || ' ' || encode(bytes, 'escape') as row from public.sources"
        : `select to_jsonb(t)::text as row from ${name} t`,
    );
    text += rows.map(({ row }) => `${name} ${row}\n`).join("");
  }
  return text;
}

describe("deleting a player", () => {
  it("takes recordings, accounts, links, files of jobs and what waits along; nothing of them is left in the store", async () => {
    const before = await everything();
    const held = await playerWithEverything("Wenzeslava", 0);
    expect(await everything()).toContain("Wenzeslava");
    expect((await call(`/players/${held.player}`, { method: "DELETE" })).status).toBe(204);
    // At once nobody sees it any more; after the time for second thoughts it is gone.
    expect((await call(`/takes/${held.take}`)).status).toBe(404);
    expect((await fetch(`${server.url}${held.share.path}`, { redirect: "manual" })).status).not.toBe(200);
    expect((await json(`/corpora/${held.corpus}`)).takes).toBe(0);
    await call(`/corpora/${held.corpus}`, { method: "DELETE" });
    await purgeDeleted(server.services.database, 0);
    const after = await everything();
    expect(after).not.toMatch(/wenzeslava/i);
    const count = (text: string, table: string) => text.split(`public.${table} `).length;
    for (const table of [
      ...["takes", "players", "sources", "analyses", "lines", "blocks", "tallies", "ideas_found"],
      ...["items", "tokens"],
    ]) {
      expect([table, count(after, table)]).toEqual([table, count(before, table)]);
    }
  });

  it("leaves other players' takes of the same recording whole", async () => {
    const kept = await playerWithEverything("Ove", 4);
    const form = takeForm({ chart: FOUR_BARS, player: "Runa" }, midi(4), "same.mid");
    const { take } = await json("/takes", { method: "POST", body: form });
    await call(`/players/${take.playerId}`, { method: "DELETE" });
    await purgeDeleted(server.services.database, 0);
    expect((await call(`/takes/${kept.take}/analysis`)).status).toBe(200);
    expect((await call(`/takes/${kept.take}/source`)).status).toBe(200);
    expect((await json(`/corpora/${kept.corpus}`)).takes).toBe(1);
    expect((await json(`/corpora/${kept.corpus}/failures`)).failures).toHaveLength(1);
  });

  it("stops what waits under the player's name, which would bring the player back", async () => {
    const quiet = await serve({ worker: false });
    const other = callsTo(() => quiet);
    const id = await other.corpus("Waiting");
    const player = await other.post("/players", { name: "Tove" });
    const job = await other.fill(
      id,
      { "a.mid": midi(0), "b.mid": midi(1) },
      { chart: FOUR_BARS, player: "tove" },
    );
    await other.call(`/players/${player.id}`, { method: "DELETE" });
    expect(await other.json(`/jobs/${job.id}`)).toMatchObject({ cancelled: 2, done: 0 });
    await purgeDeleted(quiet.services.database, 0);
    const rows = await quiet.services.database.query(
      "select 1 from items where lower(player) = 'tove' union all select 1 from sources",
    );
    expect(rows).toEqual([]);
    await quiet.close();
  });

  it("can be undone for a while, with all takes", async () => {
    const held = await playerWithEverything("Sunniva", 7);
    await call(`/players/${held.player}`, { method: "DELETE" });
    await purgeDeleted(server.services.database, 30);
    expect((await call(`/players/${held.player}/restore`, { method: "POST" })).status).toBe(200);
    expect((await call(`/takes/${held.take}/analysis`)).status).toBe(200);
    expect((await json(`/corpora/${held.corpus}`)).takes).toBe(1);
  });
});

describe("what is older than is kept", () => {
  it("goes by itself with its player, and what is younger or of no player stays", async () => {
    const aged = await serve();
    const other = callsTo(() => aged);
    const { database } = aged.services;
    const take = async (player: string, n: number) =>
      (
        await other.json("/takes", {
          method: "POST",
          body: takeForm({ chart: FOUR_BARS, player, title: `${player} ${n}` }, midi(n)),
        })
      ).take.title;
    for (const [player, n] of [
      ["Gone", 0],
      ["Stays", 1],
      ["", 2],
    ] as const)
      await take(player, n);
    await database.query("update takes set created_at = now() - interval '400 days'");
    await database.query("update players set created_at = now() - interval '400 days'");
    await take("Stays", 3);
    await deleteOld(database, 401);
    expect((await other.json("/takes")).takes).toHaveLength(4);
    await deleteOld(database, 399);
    await purgeDeleted(database, 0);
    const titles = ((await other.json("/takes")).takes as { title: string }[]).map(({ title }) => title);
    expect(titles.sort()).toEqual(["2", "Stays 3"]);
    const players = ((await other.json("/players")).players as { name: string }[]).map(({ name }) => name);
    expect(players).toEqual(["Stays"]);
    await aged.close();
  });
});

describe("what is held on one player", () => {
  it("comes as one zip: every take with recording, account and feedback, links, and files of jobs", async () => {
    const held = await playerWithEverything("Maren", 9);
    const zip = new Uint8Array(await (await call(`/players/${held.player}/export.zip`)).arrayBuffer());
    const files = unzipSync(zip);
    const text = (name: string) => new TextDecoder().decode(files[name]);
    expect(JSON.parse(text("player.json")).name).toBe("Maren");
    const takes = Object.keys(files).filter((name) => name.endsWith("/take.json"));
    expect(takes).toHaveLength(2);
    for (const name of takes) {
      const folder = name.split("/")[0]!;
      expect(JSON.parse(text(`${folder}/account.json`)).notes).toHaveLength(ARPEGGIOS.length);
      expect(files[`${folder}/source.mid`]!.length).toBeGreaterThan(50);
    }
    expect(files[`${held.take}/source.mid`]).toEqual(midi(9));
    expect(text(`${held.take}/feedback.json`)).toContain("own words of Maren");
    expect(text("links.json")).toContain("link for Maren");
    const bad = Object.keys(files).filter((name) => name.startsWith("jobs/") && name.endsWith(".mid"));
    expect(bad.map(text)).toEqual(["no MIDI, but words of Maren"]);
  });
});
