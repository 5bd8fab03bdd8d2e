/** Requests that speak with two tongues, come under another name, or hold a day that is none; and a restart. */
import { mkdtempSync, rmSync } from "node:fs";
import { connect } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { RunningServer } from "../../server/start.ts";
import { callsTo, formOf } from "./calls.ts";
import { ARPEGGIOS, FOUR_BARS, serve, smallMidi } from "./harness.ts";

const folder = mkdtempSync(join(tmpdir(), "ledgerline-odd-"));
const open = () => serve({ dataDir: join(folder, "data"), databaseUrl: undefined });
let server: RunningServer;
const { call, corpus, fill, ended } = callsTo(() => server);

beforeAll(async () => {
  server = await open();
});
afterAll(async () => {
  await server.close();
  rmSync(folder, { recursive: true, force: true });
});

/** Sends bytes as they stand. @returns the status lines of all answers, until the connection ends */
function statuses(text: string): Promise<string[]> {
  const { hostname, port } = new URL(server.url);
  return new Promise((done, failed) => {
    let answer = "";
    connect({ host: hostname, port: Number(port) })
      .on("data", (part) => {
        answer += part.toString("latin1");
      })
      .on("error", failed)
      .on("close", () => done([...answer.matchAll(/^HTTP\/1\.1 (\d+)/gm)].map(([, status]) => status!)))
      .write(text);
  });
}

describe("a request", () => {
  const HEAD = "POST /api/players HTTP/1.1\r\nhost: 127.0.0.1\r\ncontent-type: application/json\r\n";
  const HIDDEN = "GET /api/takes HTTP/1.1\r\nhost: 127.0.0.1\r\n\r\n";

  // RFC 9112, 6.1 and 6.3: such a message is refused and its connection closed, so that nothing is smuggled in.
  it.each([
    ["two lengths", `${HEAD}content-length: 2\r\ncontent-length: 40\r\n\r\n{}${HIDDEN}`],
    [
      "a length and chunks",
      `${HEAD}content-length: 5\r\ntransfer-encoding: chunked\r\n\r\n0\r\n\r\n${HIDDEN}`,
    ],
    ["chunks that are not the last coding", `${HEAD}transfer-encoding: chunked, x\r\n\r\n0\r\n\r\n${HIDDEN}`],
    ["a length that is none", `${HEAD}content-length: +2\r\n\r\n{}${HIDDEN}`],
  ])("with %s is refused, and what stands behind it is not read", async (_name, text) => {
    expect(await statuses(text)).toEqual(["400"]);
  });

  it("under another name than this machine's is refused, so that no name can be turned to it", async () => {
    const asked = "GET /api/takes HTTP/1.1\r\nhost: school.example\r\nconnection: close\r\n\r\n";
    expect(await statuses(asked)).toEqual(["421"]);
  });
});

it("a manifest with a day that there is not is refused with its entry, and nothing of it is kept", async () => {
  const id = await corpus("Days");
  const manifest = "file,date\na.mid,2026-02-28\nb.mid,2026-02-31\n";
  const files = { "a.mid": smallMidi(ARPEGGIOS), "b.mid": smallMidi(ARPEGGIOS.slice(1)) };
  const body = formOf(files, { manifest, chart: FOUR_BARS });
  const response = await call(`/corpora/${id}/takes`, { method: "POST", body });
  expect(response.status).toBe(422);
  expect((await response.json()).where).toContain("entry 2");
  const [items] = await server.services.database.query<{ n: number }>(
    "select count(*)::int as n from items where corpus_id = $1",
    [id],
  );
  expect(items!.n).toBe(0);
});

it("tables are the same bytes after a restart", async () => {
  const id = await corpus("Restart");
  const files = { "a.mid": smallMidi(ARPEGGIOS), "b.mid": smallMidi(ARPEGGIOS.map((pitch) => pitch + 2)) };
  await ended((await fill(id, files, { chart: FOUR_BARS })).id);
  const tables = () =>
    Promise.all(
      ["notes?format=parquet", "choruses?format=csv", "phrases?format=ndjson"].map(async (table) =>
        Buffer.from(await (await call(`/corpora/${id}/${table}`)).arrayBuffer()).toString("base64"),
      ),
    );
  const before = await tables();
  await server.close();
  server = await open();
  expect(await tables()).toEqual(before);
});
