/** The same file twice in a corpus is one take unless more is asked for, and nothing is left out in silence. */
import { createHash } from "node:crypto";
import { afterAll, beforeAll, expect, it } from "vitest";
import type { RunningServer } from "../../server/start.ts";
import { callsTo } from "./calls.ts";
import { ARPEGGIOS, FOUR_BARS, serve, smallMidi } from "./harness.ts";

let server: RunningServer;
const { json, call, corpus, fill, ended } = callsTo(() => server);
const MIDI = smallMidi(ARPEGGIOS);
const OTHER = smallMidi(ARPEGGIOS.map((pitch) => pitch + 1));
const chart = { chart: FOUR_BARS };

beforeAll(async () => {
  server = await serve();
});
afterAll(() => server.close());

it("counts once, within an upload and in a later one", async () => {
  const id = await corpus("Once");
  const first = await ended(
    (await fill(id, { "a.mid": MIDI, "copy of a.mid": MIDI, "b.mid": OTHER }, chart)).id,
  );
  expect(first).toMatchObject({ total: 3, done: 2, failed: 0, repeated: 1, state: "done" });
  const again = await ended((await fill(id, { "a.mid": MIDI }, chart)).id);
  expect(again).toMatchObject({ total: 1, done: 0, repeated: 1, state: "done" });
  const { repeated } = await json(`/corpora/${id}/repeated`);
  expect(repeated.map(({ fileName }: { fileName: string }) => fileName)).toEqual(["copy of a.mid", "a.mid"]);
  const take = await json(`/takes/${repeated[0].take}`);
  expect(take.fileName).toBe("a.mid");
  // A paper's figures: two takes, and the hash over two different files.
  const citation = await json(`/corpora/${id}/citation`);
  const hashes = [MIDI, OTHER].map((bytes) => createHash("sha256").update(bytes).digest("hex")).sort();
  expect(citation).toMatchObject({
    takes: 2,
    sourcesHash: createHash("sha256").update(hashes.join("\n")).digest("hex"),
  });
});

it("is two takes where that is asked for, and one again after the first was deleted", async () => {
  const id = await corpus("Kept");
  await ended((await fill(id, { "a.mid": MIDI }, chart)).id);
  const kept = await ended((await fill(id, { "a.mid": MIDI }, { ...chart, repeats: "keep" })).id);
  expect(kept).toMatchObject({ done: 1, repeated: 0 });
  expect((await json(`/corpora/${id}`)).takes).toBe(2);
  const rows = (await (await call(`/corpora/${id}/takes?format=ndjson`)).text()).trim().split("\n");
  for (const row of rows) await call(`/takes/${JSON.parse(row).take}`, { method: "DELETE" });
  const anew = await ended((await fill(id, { "a.mid": MIDI }, chart)).id);
  expect(anew).toMatchObject({ done: 1, repeated: 0 });
});

it("fails with the reason when it comes with another chart, since nobody can guess which is meant", async () => {
  const id = await corpus("Otherwise");
  await ended((await fill(id, { "a.mid": MIDI }, chart)).id);
  const job = await ended((await fill(id, { "a.mid": MIDI }, { chart: "| C7 |" })).id);
  expect(job).toMatchObject({ done: 0, failed: 1, repeated: 0 });
  expect((await json(`/corpora/${id}/failures`)).failures).toMatchObject([{ code: "file-twice" }]);
  expect(await json(`/corpora/${id}/failures/retry`, { method: "POST" })).toEqual({ waiting: 0 });
});

it("is another take in another corpus", async () => {
  for (const name of ["One", "Two"]) {
    const id = await corpus(name);
    expect(await ended((await fill(id, { "a.mid": MIDI }, chart)).id)).toMatchObject({
      done: 1,
      repeated: 0,
    });
  }
});
