/** A table that breaks off on the way must not pass for a whole one, with any client. */
import { execFile } from "node:child_process";
import { request } from "node:http";
import { connect } from "node:net";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { createClient } from "../../server/api-client.ts";
import type { RunningServer } from "../../server/start.ts";
import { callsTo } from "./calls.ts";
import { ARPEGGIOS, FOUR_BARS, serve, smallMidi } from "./harness.ts";

const TAKES = 40;
let server: RunningServer;
let whole: string;
let cut: string;
const { corpus, fill, ended } = callsTo(() => server);

beforeAll(async () => {
  server = await serve();
  const files = Object.fromEntries(
    Array.from({ length: TAKES }, (_, n) => [`${n}.mid`, smallMidi(ARPEGGIOS.map((p) => p - 12 + (n % 2)))]),
  );
  whole = await corpus("Whole");
  await ended((await fill(whole, files, { chart: FOUR_BARS, repeats: "keep" })).id);
  cut = await corpus("Cut");
  await ended((await fill(cut, files, { chart: FOUR_BARS, options: '{"tempo":120}', repeats: "keep" })).id);
  // One block in the middle is not what was written: that of the second half, in the order of tables.
  await server.services.database.query(
    `update blocks set block = '\\x00' where key =
       (select analysis from takes where corpus_id = $1 order by source desc limit 1)`,
    [cut],
  );
});
afterAll(() => server.close());

const url = (id: string, format: string) => `${server.url}/api/corpora/${id}/notes?format=${format}`;

describe.each(["csv", "ndjson", "parquet"])("a corpus table as %s", (format) => {
  it("ends with the number of its rows as a trailer", async () => {
    const trailers = await new Promise((done, failed) => {
      request(url(whole, format), (response) => {
        response.resume();
        response.on("end", () => done(response.trailers));
        response.on("error", failed);
      }).end();
    });
    // RFC 9110, section 6.5: fields after the content.
    expect(trailers).toEqual({ "x-rows": String(TAKES * ARPEGGIOS.length) });
  });

  it("answers a question for its heading, and HTTP/1.0, which knows no trailers (RFC 9110, 9.3.2; RFC 9112, 7.1)", async () => {
    const head = await fetch(url(whole, format), { method: "HEAD" });
    expect([head.status, head.headers.get("trailer")]).toEqual([200, null]);
    const { port, pathname, search } = new URL(url(whole, format));
    const old = await new Promise<string>((done, failed) => {
      let text = "";
      connect(Number(port), "127.0.0.1")
        .on("data", (part) => {
          text += part.toString("latin1");
        })
        .on("close", () => done(text))
        .on("error", failed)
        .write(`GET ${pathname}${search} HTTP/1.0\r\nhost: 127.0.0.1\r\n\r\n`);
    });
    expect(old).toMatch(/^HTTP\/1\.1 200 /);
    expect((await fetch(`${server.url}/api/health`)).status).toBe(200);
  });

  it("that breaks off is an error to a browser's fetch and to curl", async () => {
    const response = await fetch(url(cut, format));
    expect(response.status).toBe(200);
    await expect(response.arrayBuffer()).rejects.toThrow();
    // curl(1), EXIT CODES: 18, only a part of the file was transferred.
    const code = await new Promise((done) => {
      execFile("curl", ["-s", "-o", "/dev/null", url(cut, format)], (error) => done(error?.code));
    });
    expect([18, 56]).toContain(code);
  });
});

describe("a take that was analysed before tables were kept", () => {
  it.each(["csv", "ndjson"])("gives the same rows from its account: %s", async (format) => {
    const before = await (await fetch(url(whole, format))).text();
    await server.services.database.query(
      `delete from blocks where key in (select analysis from takes where corpus_id = $1) and name like 'notes %'`,
      [whole],
    );
    expect(await (await fetch(url(whole, format))).text()).toBe(before);
  });
});

describe("the typed client", () => {
  it("throws in the middle of a table that breaks off", async () => {
    const read = async (id: string) => {
      let rows = 0;
      for await (const _row of createClient(server.url).rows(id, "notes")) rows++;
      return rows;
    };
    expect(await read(whole)).toBe(TAKES * ARPEGGIOS.length);
    await expect(read(cut)).rejects.toThrow();
  });
});

describe("a reader who goes away", () => {
  it("ends the work on the table", async () => {
    const stop = new AbortController();
    const response = await fetch(url(whole, "csv"), { signal: stop.signal });
    await response.body!.getReader().read();
    stop.abort();
    expect((await fetch(`${server.url}/api/ready`)).status).toBe(200);
  });
});
