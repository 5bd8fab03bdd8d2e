/** The takes of a corpus as a table that others read, with lists and dates as such. */
import { createHash } from "node:crypto";
import { mkdtemp, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { DuckDBInstance } from "@duckdb/node-api";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { RunningServer } from "../../server/start.ts";
import { callsTo } from "./calls.ts";
import { ARPEGGIOS, serve, smallMidi } from "./harness.ts";

let server: RunningServer;
let path: string;
const { call, json, corpus, fill, ended } = callsTo(() => server);
const file = smallMidi(ARPEGGIOS);

beforeAll(async () => {
  server = await serve();
  const id = await corpus("Cited");
  const manifest = JSON.stringify([
    {
      file: "a.mid",
      chart: "key: F\n| F7 | Bb7 | C7 | F7 |",
      date: "2026-03-01",
      tags: ["two tracks", "first"],
    },
    { file: "b.mid", chart: "key: F\n| F7 | Bb7 | C7 | F7 |" },
  ]);
  const job = await fill(
    id,
    { "a.mid": file, "b.mid": smallMidi(ARPEGGIOS.map((p) => p + 1)) },
    { manifest },
  );
  expect(await ended(job.id)).toMatchObject({ done: 2 });
  path = `/corpora/${id}/takes`;
});
afterAll(() => server.close());

describe("the table of takes", () => {
  it("has a row for each, with the hash of its file and the version of its account", async () => {
    const lines = (await (await call(`${path}?format=ndjson`)).text()).trim().split("\n");
    const rows = lines.map((line) => JSON.parse(line)).sort((a, b) => (a.fileName < b.fileName ? -1 : 1));
    expect(rows).toHaveLength(2);
    expect(rows[0]).toMatchObject({
      ...{ fileName: "a.mid", date: "2026-03-01", tags: ["two tracks", "first"], meter: "4/4", key: "F" },
      ...{ choruses: 1, notes: 16, chart: "key: F\n| F7 | Bb7 | C7 | F7 |" },
      sha256: createHash("sha256").update(file).digest("hex"),
    });
    const analysis = await json(`/takes/${rows[0].take}/analysis`);
    expect(rows[0].analysisVersion).toBe(analysis.analysisVersion);
    expect(rows[0].warnings).toEqual(
      [...new Set(analysis.warnings.map(({ code }: { code: string }) => code))].sort(),
    );
    expect(await json("/tables")).toMatchObject({
      analysisVersion: analysis.analysisVersion,
      tables: expect.arrayContaining([expect.objectContaining({ name: "takes", rows: "a take" })]),
    });
    const csv = (await (await call(`${path}?format=csv&tag=first`)).text()).trim().split(/\r\n(?=[\w-]+,)/);
    expect(csv).toHaveLength(2);
    expect(csv[1]).toContain('"[""two tracks"",""first""]"');
  });

  it("is a Parquet file with types that another reader opens, and says what its columns are", async () => {
    const place = join(await mkdtemp(join(tmpdir(), "ledgerline-takes-")), "takes.parquet");
    await writeFile(place, new Uint8Array(await (await call(`${path}?format=parquet`)).arrayBuffer()));
    // DuckDB reads Parquet independently of the library that wrote it.
    const duck = await (await DuckDBInstance.create(":memory:")).connect();
    const rows = async (sql: string) => (await duck.runAndReadAll(sql)).getRowsJson();
    expect(
      await rows(`select "fileName", date::text, tags, len(warnings) >= 0 from '${place}' order by 1`),
    ).toEqual([
      ["a.mid", "2026-03-01", ["two tracks", "first"], true],
      ["b.mid", null, [], true],
    ]);
    const types = await rows(`select column_name, column_type from (describe select * from '${place}')`);
    expect(Object.fromEntries(types as [string, string][])).toMatchObject({
      ...{
        date: "DATE",
        tags: "VARCHAR[]",
        warnings: "VARCHAR[]",
        confidence: "DOUBLE",
        choruses: "INTEGER",
      },
    });
    const told = await rows(`select decode(key), decode(value) from parquet_kv_metadata('${place}')`);
    const { "ledgerline.columns": columns, ...versions } = Object.fromEntries(told as [string, string][]);
    expect(Object.keys(versions)).toContain("ledgerline.analysisVersion");
    expect(Object.values(JSON.parse(columns!))).not.toContain("");
  });
});
