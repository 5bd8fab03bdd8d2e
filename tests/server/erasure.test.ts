/** What is deleted is gone from the files, not only from what the service shows. */
import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import type { RunningServer } from "../../server/start.ts";
import { eraseDeleted } from "../../server/store/erase.ts";
import { purgeDeleted } from "../../server/store/purge.ts";
import { callsTo, sent } from "./calls.ts";
import { ARPEGGIOS, FOUR_BARS, serve, smallMidi, takeForm } from "./harness.ts";
import { postgresIsInstalled, startPostgres } from "./postgres.ts";

/** Words that stand nowhere else, one for each place in which something of a person is kept. */
const WORDS = {
  name: "Wenzeslava",
  note: "Quittenbaum",
  title: "Haselnussweg",
  fileName: "Brombeerhecke",
  tag: "Ebereschenlaub",
  own: "Holunderzweig",
  parents: "Kornelkirsche",
  link: "Mispelkompott",
  failed: "Schlehenfeuer",
  renamed: "Vogelbeerast",
  lesson: "Sanddornblatt",
  token: "Elsbeerlaub",
  ownLink: "Traubenkirsche",
};

/** Which of the words, and whether these bytes, are in any file of a folder. */
function found(folder: string, bytes: Uint8Array): string[] {
  const hits = new Set<string>();
  for (const name of readdirSync(folder, { recursive: true }) as string[]) {
    const path = join(folder, name);
    const content = statSync(path).isFile() ? readFileSync(path) : Buffer.alloc(0);
    for (const word of Object.values(WORDS)) if (content.includes(word)) hits.add(word);
    if (content.includes(Buffer.from(bytes))) hits.add("bytes of an account");
  }
  return [...hits].sort();
}

/** Fills every place with its word, and gives a piece of the account as it is stored. */
async function fill(server: RunningServer): Promise<{ player: string; piece: Uint8Array }> {
  const { call, json, post, corpus, fill: send, ended } = callsTo(() => server);
  const { name, note, title, fileName, tag, own, parents, link, failed, renamed, lesson, token, ownLink } =
    WORDS;
  const player = (await post("/players", { name: renamed, note })).id as string;
  await call(`/players/${player}`, sent("PATCH", { name }));
  const form = takeForm(
    { chart: FOUR_BARS, player: name, title, tags: tag },
    smallMidi(ARPEGGIOS),
    `${fileName}.mid`,
  );
  const { take } = await json("/takes", { method: "POST", body: form });
  await call(`/takes/${take.id}/feedback`, sent("PUT", { own }));
  await post(`/players/${player}/notes`, { date: "2026-03-01", text: parents });
  await post(`/takes/${take.id}/shares`, { name: link });
  await post(`/players/${player}/shares`, { name: ownLink });
  // Somebody's token that has ended, which is forgotten, and who read of the player meanwhile.
  const { id } = await post("/tokens", { name: token, role: "teacher", scope: [player] });
  await call(`/players/${player}/page`);
  await call(`/tokens/${id}?forget=true`, { method: "DELETE" });
  await post("/lessons", {
    ...{ chart: `name: ${lesson}\n${FOUR_BARS}`, players: [player], handedOn: "2026-03-01" },
  });
  const job = await send(
    await corpus("Evening class"),
    { "bad.mid": failed },
    { chart: FOUR_BARS, player: name },
  );
  await ended(job.id);
  const [row] = await server.services.database.query<{ account: Uint8Array }>(
    "select a.account from takes t join analyses a on a.key = t.analysis where t.id = $1",
    [take.id],
  );
  return { player, piece: row!.account.slice(40, 90) };
}

async function deletesFrom(folder: string, server: RunningServer): Promise<void> {
  const { database } = server.services;
  const { player, piece } = await fill(server);
  // As a server that runs for long: what is in memory is written, and statistics are made.
  await database.script("analyze");
  await database.script("checkpoint");
  expect(found(folder, piece)).toEqual([...Object.values(WORDS), "bytes of an account"].sort());
  await callsTo(() => server).call(`/players/${player}`, { method: "DELETE" });
  await purgeDeleted(database, 0);
  const refused: unknown[] = [];
  expect(await eraseDeleted(database, (error) => refused.push(error))).toBe(true);
  expect(refused).toEqual([]);
  expect(found(folder, piece)).toEqual([]);
  expect(await eraseDeleted(database, (error) => refused.push(error))).toBe(false);
}

describe("no byte of a deleted player is left in the data folder", () => {
  it("of the embedded store", async () => {
    const folder = mkdtempSync(join(tmpdir(), "ledgerline-erase-"));
    const server = await serve({ dataDir: folder, databaseUrl: undefined });
    await deletesFrom(folder, server);
    await server.close();
    expect(found(folder, Buffer.from("no such bytes"))).toEqual([]);
    rmSync(folder, { recursive: true, force: true });
  });

  it.skipIf(!postgresIsInstalled())(
    "of a PostgreSQL server (skipped where it is not installed)",
    async () => {
      const postgres = await startPostgres();
      const server = await serve({ databaseUrl: await postgres.database() });
      await server.services.database.script("alter system set wal_recycle = off");
      await server.services.database.script("select pg_reload_conf()");
      await deletesFrom(postgres.data, server);
      await server.close();
      postgres.stop();
    },
  );
});
