/** What comes from outside stays text: in paths, SQL, headings, pages, spreadsheets and objects. */
import { existsSync } from "node:fs";
import { mkdir, mkdtemp, symlink, writeFile } from "node:fs/promises";
import { request } from "node:http";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { zipSync } from "fflate";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { RunningServer } from "../../server/start.ts";
import { callsTo, formOf, sent } from "./calls.ts";
import { ARPEGGIOS, FOUR_BARS, serve, smallMidi, takeForm } from "./harness.ts";

let server: RunningServer;
let allowed: string;
let outside: string;
const { call, json, post, corpus, fill, ended } = callsTo(() => server);
const MIDI = smallMidi(ARPEGGIOS);

beforeAll(async () => {
  outside = await mkdtemp(join(tmpdir(), "ledgerline-outside-"));
  allowed = join(outside, "allowed");
  await mkdir(join(allowed, "inner"), { recursive: true });
  // A neighbour whose name begins like the folder that is allowed.
  await mkdir(`${allowed}-not`);
  for (const place of ["secret.mid", "allowed-not/secret.mid", "allowed/inner/a.mid"]) {
    await writeFile(join(outside, place), MIDI);
  }
  await symlink(join(outside, "secret.mid"), join(allowed, "link.mid"));
  await symlink(outside, join(allowed, "up"));
  server = await serve({ corpusDir: allowed });
});
afterAll(() => server.close());

const NASTY = [
  `'); drop table takes; --`,
  `" or "1"="1`,
  `$1`,
  `\\'; select pg_sleep(10); --`,
  `<img src=x onerror=alert(1)>`,
  `</script><script>alert(1)</script>`,
  `\u202Egnp.exe`,
  `%00%2e%2e%2f`,
];

describe("paths", () => {
  it("of a zip's entries are only names: nothing is written, and the file is given back under its last part", async () => {
    const marker = `ledgerline-slip-${Date.now()}`;
    const id = await corpus("Zip");
    const names = [`../../../../tmp/${marker}.mid`, `/tmp/${marker}-2.mid`, `..\\..\\${marker}-3.mid`];
    const zip = zipSync(
      Object.fromEntries(
        names.map((name, i) => [
          name,
          i === 0 ? Buffer.from("bad") : smallMidi(ARPEGGIOS.map((pitch) => pitch + i)),
        ]),
      ),
    );
    const job = await ended((await fill(id, { "slip.zip": zip }, { chart: FOUR_BARS })).id);
    expect(job).toMatchObject({ total: 3, done: 2, failed: 1 });
    for (const name of [`/tmp/${marker}.mid`, `/tmp/${marker}-2.mid`]) expect(existsSync(name)).toBe(false);
    const [failure] = (await json(`/corpora/${id}/failures`)).failures;
    expect(failure.fileName).toBe(`${marker}.mid`);
    const back = await call(`/corpora/${id}/failures/${failure.item}`);
    expect(back.headers.get("content-disposition")).toMatch(
      new RegExp(`^attachment; filename="?${marker}.mid"?$`),
    );
  });

  it("of a folder on the server do not lead out of the one that was allowed", async () => {
    const id = await corpus("Folder");
    for (const folder of ["..", "/etc", "inner/../..", "../allowed-not", "up", "up/allowed-not", "%2e%2e"]) {
      const response = await call(`/corpora/${id}/takes`, { method: "POST", body: formOf({}, { folder }) });
      expect([folder, response.status]).toEqual([folder, 422]);
    }
    const job = await fill(id, {}, { folder: ".", chart: FOUR_BARS });
    // Links to files and folders outside are passed over.
    expect(await ended(job.id)).toMatchObject({ total: 1, done: 1 });
  });

  it("of pages and sounds do not lead out of theirs", async () => {
    const raw = (path: string) =>
      new Promise<number>((done) => {
        const { port } = new URL(server.url);
        request({ port, path }, (response) => done(response.resume().statusCode!)).end();
      });
    for (const path of [
      ...["/../package.json", "/..%2f..%2fpackage.json", "/%2e%2e/%2e%2e/package.json"],
      ...["/piano/..%2f..%2f..%2fexpress/package.json", "/assets/../../../package.json", "/.git/config"],
    ]) {
      expect([path, [400, 403, 404].includes(await raw(path))]).toEqual([path, true]);
    }
  });
});

describe("SQL", () => {
  it("in fields, queries, paths and patterns is only text", async () => {
    const id = await corpus("SQL");
    for (const [n, nasty] of NASTY.entries()) {
      const job = await fill(
        id,
        { [`${n}.mid`]: smallMidi(ARPEGGIOS.map((pitch) => pitch - n)) },
        {
          manifest: JSON.stringify([
            { file: `${n}.mid`, chart: FOUR_BARS, player: nasty, title: nasty, tags: [nasty] },
          ]),
        },
      );
      expect(await ended(job.id)).toMatchObject({ done: 1 });
      const query = new URLSearchParams({ player: nasty, tag: nasty }).toString();
      const summary = await json(`/corpora/${id}/summary?${query}&by=player`);
      expect([summary.takes, summary.groups[0].value]).toEqual([1, nasty]);
      expect((await json(`/takes?${query}`)).takes).toEqual([]);
      for (const path of [`/takes/${encodeURIComponent(nasty)}`, `/jobs/${encodeURIComponent(nasty)}`]) {
        expect((await call(path)).status).toBe(404);
      }
      const search = await call("/search", sent("POST", { viewpoint: nasty, symbols: [nasty] }));
      expect(search.status).toBe(400);
    }
    expect((await json(`/corpora/${id}`)).takes).toBe(NASTY.length);
  });

  it("the character zero, which PostgreSQL keeps in no text, is refused with its place", async () => {
    const refused = await call("/players", sent("POST", { name: "a\0b" }));
    expect(refused.status).toBe(400);
    expect((await refused.json()).where).toBe("body.name");
    expect((await call("/takes?tag=%00")).status).toBe(400);
    expect((await call("/takes/%00")).status).toBe(400);
    const manifest = JSON.stringify([{ file: "a.mid", chart: FOUR_BARS, title: "a\0b" }]);
    const id = await corpus("Zero");
    const zip = zipSync({ "manifest.json": Buffer.from(manifest), "a.mid": MIDI });
    const response = await call(`/corpora/${id}/takes`, { method: "POST", body: formOf({ "a.zip": zip }) });
    expect(response.status).toBe(422);
  });
});

describe("headings of answers", () => {
  it("carry file names as one quoted value, whatever is in them", async () => {
    // RFC 6266: filename in ASCII, filename* in UTF-8 for the rest.
    const names = [
      [`a"; filename=evil.html`, "filename="],
      ["line\r\nX-Evil: 1.mid", "filename="],
      ["Übung – ♭9.mid", "filename*=UTF-8''"],
    ] as const;
    const id = await corpus("Names");
    for (const [name, kind] of names) {
      const manifest = JSON.stringify([{ file: name, chart: FOUR_BARS }]);
      const zip = zipSync({ [name]: Buffer.from("no MIDI"), "manifest.json": Buffer.from(manifest) });
      await ended((await fill(id, { "names.zip": zip })).id);
      const { failures } = await json(`/corpora/${id}/failures`);
      const back = await call(`/corpora/${id}/failures/${failures.at(-1).item}`);
      expect(back.status).toBe(200);
      expect(back.headers.get("x-evil")).toBeNull();
      expect(back.headers.get("content-disposition")).toMatch(/^attachment; filename/);
      expect(back.headers.get("content-disposition")).toContain(kind);
      // Nothing that was sent is shown by a browser as a page of ours.
      expect(back.headers.get("content-type")).toBe("application/octet-stream");
      expect(back.headers.get("x-content-type-options")).toBe("nosniff");
    }
  });
});

describe("pages", () => {
  it("the file of a take shows titles and names as text", async () => {
    for (const nasty of NASTY.slice(4, 6)) {
      const { take } = await json("/takes", {
        method: "POST",
        body: takeForm({ chart: FOUR_BARS, title: nasty, player: nasty }, MIDI),
      });
      await call(`/takes/${take.id}/feedback`, sent("PUT", { own: nasty, signed: nasty }));
      const page = await (await call(`/takes/${take.id}/page.html`)).text();
      expect(page).not.toContain(nasty);
      expect(page).not.toContain("<img src=x");
      expect(page).not.toContain("<script>alert");
      // As many scripts as the page has of its own: data and code.
      expect(page.match(/<script/g)).toHaveLength(2);
    }
  }, 60_000);

  it("an answer of the API is never a page, and the pages run no script but ours", async () => {
    const answer = await call(`/${encodeURIComponent("<script>alert(1)</script>")}`);
    expect(answer.status).toBe(404);
    expect(answer.headers.get("content-type")).toContain("application/problem+json");
    const policy = (await fetch(server.url)).headers.get("content-security-policy")!;
    expect(policy).toContain("script-src 'self' 'wasm-unsafe-eval'");
    expect(policy).not.toContain("unsafe-inline");
  });
});

describe("spreadsheets", () => {
  it("no text that they would run as a formula begins a cell; numbers stay numbers", async () => {
    // Formulas begin with one of = + - @, tab or carriage return (OWASP, CSV injection).
    const formulas = ["=1+1", "+1+1", "-2+3+cmd|' /C calc'!A0", "@SUM(1)", "\t=1", '=HYPERLINK("http://x")'];
    const id = await corpus("Formulas");
    const manifest = formulas.map((text, n) => ({
      file: `${n}.mid`,
      chart: FOUR_BARS,
      title: `.${text}`.slice(1),
      player: text,
    }));
    const files = Object.fromEntries(
      formulas.map((_, n) => [`${n}.mid`, smallMidi(ARPEGGIOS.map((p) => p - n))]),
    );
    const job = await fill(id, files, { manifest: JSON.stringify(manifest) });
    expect(await ended(job.id)).toMatchObject({ done: formulas.length });
    const csv = await (await call(`/corpora/${id}/notes?format=csv`)).text();
    for (const row of csv.trim().split("\r\n")) {
      for (const cell of row.split(",")) {
        const shown = cell.replace(/^"/, "");
        if (!/^-?\d+(\.\d+)?(e-\d+)?$/.test(shown)) expect(shown).not.toMatch(/^[=+\-@\t\r]/);
      }
    }
    // The text itself is whole in the formats that no spreadsheet runs.
    const lines = (await (await call(`/corpora/${id}/notes?format=ndjson`)).text()).trim().split("\n");
    expect(new Set(lines.map((line) => JSON.parse(line).player))).toEqual(
      new Set(formulas.map((text) => text.trim())),
    );
  });
});

describe("objects", () => {
  it("are not given other prototypes by what is sent", async () => {
    const nasty = `{"__proto__":{"polluted":1},"constructor":{"prototype":{"polluted":1}},"name":"Proto"}`;
    const init = { method: "POST", headers: { "content-type": "application/json" }, body: nasty };
    expect((await call("/players", init)).status).toBe(201);
    await call("/takes", {
      method: "POST",
      body: takeForm({ chart: FOUR_BARS, options: nasty, title: "Proto" }, MIDI),
    });
    const id = await corpus("Proto");
    await fill(
      id,
      { "a.mid": MIDI },
      { manifest: `[{"file":"a.mid","chart":"| F7 |","__proto__":{"polluted":1},"options":${nasty}}]` },
    );
    await call("/takes?__proto__[polluted]=1&constructor[prototype][polluted]=1");
    expect(({} as Record<string, unknown>).polluted).toBeUndefined();
    expect((await post("/players", { name: "After" })).name).toBe("After");
  });
});
