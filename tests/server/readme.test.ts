/** What the README has a reader type for a corpus, typed as it is printed, says what the accounts of its takes say. */
import { execFile } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, symlinkSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";
import { afterAll, beforeAll, expect, it } from "vitest";
import type { RunningServer } from "../../server/start.ts";
import type { Analysis } from "../../src/account.ts";
import { callsTo } from "./calls.ts";
import { serve } from "./harness.ts";

const ROOT = fileURLToPath(new URL("../..", import.meta.url));
const WEEKS = ["first", "middle", "last"];

let server: RunningServer;
let folder: string;
let printed: string;
const { call, json } = callsTo(() => server);

beforeAll(async () => {
  server = await serve();
  folder = mkdtempSync(join(tmpdir(), "readme-"));
  symlinkSync(join(ROOT, "corpus"), join(folder, "corpus"));
  const [, commands] = /from files to a table:\s+```\n(.*?)```/s.exec(
    readFileSync(join(ROOT, "README.md"), "utf8"),
  )!;
  // Nothing but the address is another one.
  const typed = commands!.replace("http://127.0.0.1:4000", server.url);
  expect(typed).not.toBe(commands);
  const shell = ["-eu", "-o", "pipefail", "-c", typed];
  printed = (await promisify(execFile)("bash", shell, { cwd: folder, maxBuffer: 2 ** 25 })).stdout;
});
afterAll(async () => {
  await server.close();
  rmSync(folder, { recursive: true, force: true });
});

async function accounts(): Promise<{ tag: string; account: Analysis }[]> {
  const [corpus] = (await json("/corpora")).corpora;
  const rows = (await (await call(`/corpora/${corpus.id}/takes?format=ndjson`)).text()).trim().split("\n");
  return Promise.all(
    rows.map(async (row) => {
      const { take, tags } = JSON.parse(row) as { take: string; tags: string[] };
      return { tag: tags[0]!, account: (await json(`/takes/${take}/analysis`)) as Analysis };
    }),
  );
}

it("the share of tensions by tag, from the table alone, is that of the accounts", async () => {
  // The first of these lines stands behind the end of an answer.
  const lines = printed.matchAll(/(first|middle|last) ([\d.]+)$/gm);
  const shares = Object.fromEntries([...lines].map(([, tag, share]) => [tag, share]));
  expect(Object.keys(shares).sort()).toEqual([...WEEKS].sort());
  for (const { tag, account } of await accounts()) {
    const solo = account.notes.filter((note) => note.solo);
    const tensions = solo.filter(({ role }) => role === "tension");
    // As awk prints a number: six digits.
    expect(Number(shares[tag]), tag).toBeCloseTo(tensions.length / solo.length, 5);
  }
});

it("the job ends, nothing failed, and each answer is printed as the service gives it", async () => {
  const [corpus] = (await json("/corpora")).corpora;
  expect(corpus.takes).toBe(WEEKS.length);
  expect(printed).toContain('"state":"done"');
  for (const path of ["failures", "summary?by=tag", "citation"]) {
    expect(printed, path).toContain(await (await call(`/corpora/${corpus.id}/${path}`)).text());
  }
  expect((await json(`/corpora/${corpus.id}/failures`)).failures).toEqual([]);
});

it("the table that is kept has a row for each note of the accounts, by its id and pitch", async () => {
  const lines = readFileSync(join(folder, "notes.csv"), "utf8").trim().split(/\r?\n/);
  const names = lines[0]!.split(",");
  const cell = (line: string, name: string) => line.split(",")[names.indexOf(name)]!;
  const rows = lines.slice(1).map((line) => `${cell(line, "id")} ${cell(line, "pitch")}`);
  const notes = (await accounts()).flatMap(({ account }) =>
    account.notes.map(({ id, pitch }) => `${id} ${pitch}`),
  );
  expect(rows.sort()).toEqual(notes.sort());
});
