import { mkdtemp, symlink, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { zipSync } from "fflate";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { RunningServer } from "../../server/start.ts";
import { ARPEGGIOS, FOUR_BARS, serve, smallMidi } from "./harness.ts";

let server: RunningServer;
let folder: string;
const call = (path: string, init?: RequestInit) => fetch(`${server.url}/api${path}`, init);
const json = async (path: string, init?: RequestInit) => (await call(path, init)).json();
const post = (path: string, body: unknown) =>
  json(path, {
    method: "POST",
    headers: { "content-type": "application/json" },
    body: JSON.stringify(body),
  });

function formOf(
  files: Readonly<Record<string, Uint8Array>>,
  fields: Readonly<Record<string, string>> = {},
): FormData {
  const form = new FormData();
  for (const [name, value] of Object.entries(fields)) form.append(name, value);
  for (const [name, bytes] of Object.entries(files)) form.append("file", new Blob([bytes as BlobPart]), name);
  return form;
}

async function ended(job: string) {
  for (;;) {
    const state = await json(`/jobs/${job}`);
    if (state.state === "done" || state.state === "cancelled") return state;
    await new Promise((done) => setTimeout(done, 100));
  }
}

/** Transposed by `n` semitones, so that every take of a corpus is another file. */
const transposed = (n: number) => smallMidi(ARPEGGIOS.map((pitch) => pitch - 12 + n));

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "ledgerline-corpus-"));
  await writeFile(join(folder, "a.mid"), transposed(0));
  await symlink("/etc/hostname", join(folder, "out.mid"));
  server = await serve({ corpusDir: folder });
});
afterAll(() => server.close());

describe("a corpus", () => {
  it("takes a zip with a manifest; a bad file fails alone, with its reason, and can be fetched and sent again", async () => {
    const corpus = await post("/corpora", { name: "Spring term" });
    const manifest = {
      takes: [
        ...[0, 1, 2].map((n) => ({
          file: `takes/${n}.mid`,
          chart: FOUR_BARS,
          player: n === 0 ? "Mara" : "Ove",
          date: `2026-03-0${n + 1}`,
          tags: ["spring"],
        })),
        { file: "broken.mid", chart: FOUR_BARS },
        { file: "absent.mid", chart: FOUR_BARS },
        { file: "takes/0.mid", chart: "| F7 | H7 |", title: "bad chart" },
      ],
    };
    const zip = zipSync({
      "manifest.json": new TextEncoder().encode(JSON.stringify(manifest)),
      "takes/0.mid": transposed(0),
      "takes/1.mid": transposed(1),
      "takes/2.mid": transposed(2),
      "broken.mid": new TextEncoder().encode("not a MIDI file"),
    });
    const response = await call(`/corpora/${corpus.id}/takes`, {
      method: "POST",
      body: formOf({ "class.zip": zip }),
    });
    expect(response.status).toBe(202);
    const job = await ended((await response.json()).id);
    expect(job).toMatchObject({ state: "done", total: 6, done: 3, failed: 3 });

    const { failures } = await json(`/corpora/${corpus.id}/failures`);
    expect(failures.map((failure: { code: string }) => failure.code).sort()).toContain("file-missing");
    for (const failure of failures) expect(failure.todo.length).toBeGreaterThan(5);
    const broken = failures.find((failure: { fileName: string }) => failure.fileName === "broken.mid");
    const bytes = await (await call(`/corpora/${corpus.id}/failures/${broken.item}`)).text();
    expect(bytes).toBe("not a MIDI file");

    // The same files once more, where that is asked for: other takes, but no analysis is made twice.
    const before = await server.services.database.query<{ n: number }>(
      "select count(*)::int as n from analyses",
    );
    const again = await json(`/corpora/${corpus.id}/takes`, {
      method: "POST",
      body: formOf(
        { "0.mid": transposed(0), "1.mid": transposed(1) },
        { chart: FOUR_BARS, tags: "again", repeats: "keep" },
      ),
    });
    expect(await ended(again.id)).toMatchObject({ done: 2, failed: 0 });
    const after = await server.services.database.query<{ n: number }>(
      "select count(*)::int as n from analyses",
    );
    expect(after[0]!.n).toBe(before[0]!.n);
  });

  it("reads a manifest in CSV, and says which entry and field is wrong", async () => {
    const corpus = await post("/corpora", { name: "CSV" });
    const csv = "file,form,key,player,date,tags\n0.mid,blues-basic,F,Mara,2026-03-01,one two\n";
    const job = await json(`/corpora/${corpus.id}/takes`, {
      method: "POST",
      body: formOf({ "0.mid": transposed(0) }, { manifest: csv }),
    });
    expect(await ended(job.id)).toMatchObject({ done: 1 });
    const bad = await call(`/corpora/${corpus.id}/takes`, {
      method: "POST",
      body: formOf({ "0.mid": transposed(0) }, { manifest: "file,date\n0.mid,yesterday\n" }),
    });
    expect(bad.status).toBe(422);
    expect((await bad.json()).where).toContain("entry 1");
  });

  it("reads a folder that was allowed at the start, never what lies outside of it", async () => {
    const corpus = await post("/corpora", { name: "Folder" });
    const job = await json(`/corpora/${corpus.id}/takes`, {
      method: "POST",
      body: formOf({}, { folder: ".", chart: FOUR_BARS }),
    });
    expect(await ended(job.id)).toMatchObject({ total: 1, done: 1 });
    for (const outside of ["..", "/etc", "a/../../.."]) {
      const response = await call(`/corpora/${corpus.id}/takes`, {
        method: "POST",
        body: formOf({}, { folder: outside, chart: FOUR_BARS }),
      });
      expect(response.status).toBe(422);
    }
  });

  it("tells how far a job is as events, and stops when it is cancelled", async () => {
    const corpus = await post("/corpora", { name: "Cancelled" });
    const files = Object.fromEntries(Array.from({ length: 12 }, (_, n) => [`${n}.mid`, transposed(n)]));
    const job = await json(`/corpora/${corpus.id}/takes`, {
      method: "POST",
      body: formOf(files, { form: "blues-basic", key: "F" }),
    });
    const stopped = await json(`/jobs/${job.id}`, { method: "DELETE" });
    expect(stopped.state).toBe("cancelled");
    expect(stopped.done + stopped.failed + stopped.cancelled).toBe(12);
    const events = await (await call(`/jobs/${job.id}/events`)).text();
    expect(events).toContain("event: progress\ndata: {");
    expect(JSON.parse(events.split("data: ")[1]!).id).toBe(job.id);
  });

  it("is summed up, exported as three kinds of table, searched, compared and cited", async () => {
    const corpus = await post("/corpora", { name: "Results" });
    const takes = Array.from({ length: 8 }, (_, n) => ({
      file: `${n}.mid`,
      chart: FOUR_BARS,
      player: n < 4 ? "Mara" : "Ove",
      tags: n < 4 ? ["first"] : ["second"],
      date: n < 4 ? "2019-03-01" : "2026-03-01",
    }));
    const job = await json(`/corpora/${corpus.id}/takes`, {
      method: "POST",
      body: formOf(Object.fromEntries(takes.map((take, n) => [take.file, transposed(n)])), {
        manifest: JSON.stringify(takes),
      }),
    });
    expect(await ended(job.id)).toMatchObject({ done: 8, failed: 0 });
    const notes = 8 * ARPEGGIOS.length;

    const summary = await json(`/corpora/${corpus.id}/summary?by=player`);
    expect(summary).toMatchObject({ takes: 8, players: 2, notes });
    const sum = (shares: Record<string, number>) => Object.values(shares).reduce((a, b) => a + b, 0);
    expect(sum(summary.roles)).toBeCloseTo(1, 9);
    expect(
      summary.groups.map((group: { value: string; notes: number }) => [group.value, group.notes]),
    ).toEqual([
      ["Mara", notes / 2],
      ["Ove", notes / 2],
    ]);
    for (const by of ["tag", "chord", "tempo", "decade", "key", "chart", "method"]) {
      const grouped = await json(`/corpora/${corpus.id}/summary?by=${by}`);
      expect(grouped.groups.reduce((total: number, group: { notes: number }) => total + group.notes, 0)).toBe(
        notes,
      );
    }
    expect((await json(`/corpora/${corpus.id}/summary?tag=first&to=2020-01-01`)).takes).toBe(4);

    const csv = (await (await call(`/corpora/${corpus.id}/notes?format=csv`)).text()).trim().split("\r\n");
    expect(csv).toHaveLength(1 + notes);
    const lines = (await (await call(`/corpora/${corpus.id}/notes?format=ndjson&player=Ove`)).text())
      .trim()
      .split("\n");
    expect(lines).toHaveLength(notes / 2);
    expect(JSON.parse(lines[0]!).player).toBe("Ove");
    const parquet = await (await call(`/corpora/${corpus.id}/notes?format=parquet`)).arrayBuffer();
    const file = join(folder, "notes.parquet");
    await writeFile(file, new Uint8Array(parquet));
    // DuckDB reads Parquet independently of the library that wrote it.
    const { DuckDBInstance } = await import("@duckdb/node-api");
    const duck = await (await DuckDBInstance.create(":memory:")).connect();
    const reader = await duck.runAndReadAll(
      `select count(*)::int, sum(pitch)::int, count(distinct player)::int from '${file}' where solo`,
    );
    const sumOfPitches = Array.from({ length: 8 }, (_, n) =>
      ARPEGGIOS.reduce((total, pitch) => total + pitch - 12 + n, 0),
    ).reduce((a, b) => a + b, 0);
    expect(reader.getRows()[0]).toEqual([notes, sumOfPitches, 2]);
    for (const table of ["phrases", "motifs", "placements", "choruses"]) {
      expect((await call(`/corpora/${corpus.id}/${table}?format=parquet`)).status).toBe(200);
    }

    // Half of the takes as they were stored before lines were packed and had names, the last of 28 bytes a note.
    await server.services.database.query(
      "update lines set packed = null, line = substring(line for length(line) - (length(line) - 4) / 28) where key in (select analysis from takes where corpus_id = $1 order by id limit 4)",
      [corpus.id],
    );
    // F A C Eb: major third, minor third, minor third, the dominant seventh's own intervals, in every take.
    const search = await post(`/corpora/${corpus.id}/search`, {
      notes: [60, 64, 67, 70].map((pitch) => ({ pitch })),
    });
    expect(search.found).toBe(8 * 3);
    expect(search.hits[0].pitches).toHaveLength(4);
    expect(new Set(search.hits.map((hit: { take: string }) => hit.take)).size).toBe(8);
    const rows = (await (await call(`/corpora/${corpus.id}/notes?format=ndjson`)).text()).trim().split("\n");
    const names = new Map(
      rows.map((row) => JSON.parse(row)).map(({ take, id, spelling }) => [`${take} ${id}`, spelling]),
    );
    for (const { take, ids, spellings } of search.hits) {
      expect(spellings).toEqual(ids.map((id: string) => names.get(`${take} ${id}`)));
    }
    const near = await post(`/corpora/${corpus.id}/search`, {
      notes: [60, 64, 67, 70, 65, 69].map((pitch) => ({ pitch })),
      maxEdits: 1,
      filter: { player: "Mara" },
    });
    expect(new Set(near.hits.map((hit: { take: string }) => hit.take)).size).toBe(4);
    const wrong = await call(`/corpora/${corpus.id}/search`, {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify({ symbols: ["x"] }),
    });
    expect(wrong.status).toBe(422);

    const sides = await post(`/corpora/${corpus.id}/compare`, { a: { tag: "first" }, b: { tag: "second" } });
    expect(sides.takes).toEqual({ a: 4, b: 4 });
    expect((await json(`/corpora/${corpus.id}/vocabulary`)).takes).toBe(8);
    const citation = await json(`/corpora/${corpus.id}/citation`);
    expect(citation.sourcesHash).toMatch(/^[0-9a-f]{64}$/);
    expect(citation.text).toContain("8 takes");
    expect((await json(`/corpora/${corpus.id}/citation`)).analysesHash).toBe(citation.analysesHash);
  });

  it("shows how its takes are spread, and which one stands apart", async () => {
    const corpus = await post("/corpora", { name: "MeasureSpreads" });
    // Seven takes of one line, one at a third of the tempo, with the same beats: only notes a second tell it apart.
    const files = Object.fromEntries(
      [0, 1, 2, 3, 4, 5, 6].map((n) => [`line-${n}.mid`, smallMidi(ARPEGGIOS.map((p) => p - 12 + n))]),
    );
    const slow = smallMidi(ARPEGGIOS);
    // 1,500,000 microseconds a quarter note, 40 a minute, in the tempo event (FF 51 03) of the Standard MIDI File.
    slow.set([0x16, 0xe3, 0x60], slow.findIndex((byte, i) => byte === 0xff && slow[i + 1] === 0x51) + 3);
    const job = await json(`/corpora/${corpus.id}/takes`, {
      method: "POST",
      body: formOf({ ...files, "slow.mid": slow }, { chart: FOUR_BARS }),
    });
    expect(await ended(job.id)).toMatchObject({ done: 8, failed: 0 });
    const standing = await json(`/corpora/${corpus.id}/standing`);
    expect(standing).toMatchObject({ takes: 8, limit: 3.5, apart: 1 });
    expect(standing.rows[0].title).toBe("slow");
    expect(standing.rows[0].scores.tempo).toBeLessThan(-3.5);
    for (const { bins, takes } of standing.measures) {
      expect(bins.reduce((sum: number, bin: { takes: number }) => sum + bin.takes, 0)).toBe(takes);
    }
    expect((await json(`/corpora/${corpus.id}/standing?limit=2`)).rows).toHaveLength(2);
  });

  it("comes back with its takes after it was deleted, but not with a take that was deleted before", async () => {
    const corpus = await post("/corpora", { name: "Undo" });
    const job = await json(`/corpora/${corpus.id}/takes`, {
      method: "POST",
      body: formOf({ "0.mid": transposed(0), "1.mid": transposed(1) }, { chart: FOUR_BARS }),
    });
    expect(await ended(job.id)).toMatchObject({ done: 2 });
    const { rows } = await json(`/corpora/${corpus.id}/standing`);
    expect((await call(`/takes/${rows[0].take}`, { method: "DELETE" })).status).toBe(204);
    expect((await call(`/corpora/${corpus.id}`, { method: "DELETE" })).status).toBe(204);
    expect((await call(`/corpora/${corpus.id}`)).status).toBe(404);
    expect((await call(`/takes/${rows[1].take}`)).status).toBe(404);
    const back = await call(`/corpora/${corpus.id}/restore`, { method: "POST" });
    expect(back.status).toBe(200);
    expect(await back.json()).toMatchObject({ name: "Undo", takes: 1 });
    expect((await call(`/takes/${rows[1].take}`)).status).toBe(200);
    expect((await call(`/takes/${rows[0].take}`)).status).toBe(404);
    expect((await call(`/corpora/${corpus.id}/restore`, { method: "POST" })).status).toBe(404);
  });
});
