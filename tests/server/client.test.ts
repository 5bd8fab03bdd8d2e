import { readFile } from "node:fs/promises";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { ApiError, createClient } from "../../server/api-client.ts";
import type { RunningServer } from "../../server/start.ts";
import { noteSchema } from "../../src/account.ts";
import { NOTES } from "../../src/export/index.ts";
import { ARPEGGIOS, FOUR_BARS, serve, smallMidi } from "./harness.ts";

let server: RunningServer;
beforeAll(async () => {
  server = await serve();
});
afterAll(() => server.close());

describe("the typed client", () => {
  it("goes from files to rows, and throws what the service refuses", async () => {
    const client = createClient(server.url);
    const file = { name: "a.mid", bytes: smallMidi(ARPEGGIOS) };
    expect((await client.analyse(file, { chart: FOUR_BARS })).notes).toHaveLength(ARPEGGIOS.length);
    const corpus = await client.createCorpus("By program");
    const job = await client.sendTakes(corpus.id, [file], { chart: FOUR_BARS, player: "Mara" });
    expect(await client.jobEnded(job.id)).toMatchObject({ state: "done", done: 1 });
    const pitches: unknown[] = [];
    for await (const note of client.rows(corpus.id, "notes")) pitches.push(note.pitch);
    expect(pitches).toEqual(ARPEGGIOS);
    expect((await client.summary(corpus.id, "player")).groups[0]!.value).toBe("Mara");
    expect((await client.search(corpus.id, { symbols: [4, 3, 3] })).found).toBe(3);
    expect(await client.failures(corpus.id)).toEqual([]);
    await expect(client.analyse({ name: "e.mid", bytes: new Uint8Array() }, {})).rejects.toBeInstanceOf(
      ApiError,
    );
  });
});

describe("the README", () => {
  it("shows a note with fields that the account has, and a row with columns of the table", async () => {
    const readme = await readFile("README.md", "utf8");
    const note = JSON.parse(/```json\n([\s\S]*?)```/.exec(readme)![1]!);
    const schema = noteSchema.partial().strict();
    expect(schema.parse(note)).toEqual(note);
    const [head, row] = /```csv\n([\s\S]*?)\n```/.exec(readme)![1]!.split("\n");
    const columns = head!.split(",");
    expect(columns.filter((name) => !NOTES.columns.some((column) => column.name === name))).toEqual([]);
    expect(Object.fromEntries(columns.map((name, i) => [name, row!.split(",")[i]]))).toEqual(
      Object.fromEntries(columns.map((name) => [name, String(note[name])])),
    );
  });
});
