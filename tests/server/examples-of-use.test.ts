/** The examples in server/reference/examples run as they stand: a script, a page, a notebook. */
import { execFile, spawnSync } from "node:child_process";
import { copyFileSync, existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";
import { DuckDBInstance } from "@duckdb/node-api";
import { build } from "esbuild";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { RunningServer } from "../../server/start.ts";
import { hasChromium, launch } from "../browser/stage.ts";
import { demoAccount, demoClass } from "../demo-class.ts";
import { serveDemo } from "./harness.ts";

const ROOT = fileURLToPath(new URL("../..", import.meta.url));
const EXAMPLES = join(ROOT, "server/reference/examples");
const SOLO = join(ROOT, "corpus/takes/tilda-week-8.mid");
const README = readFileSync(join(ROOT, "README.md"), "utf8");
const run = promisify(execFile);

const hasPythonDuckdb = spawnSync("python3", ["-c", "import duckdb"]).status === 0;

let server: RunningServer;
let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "ledgerline-examples-"));
  // The examples import the package by its name, which is what was built of it.
  await run(process.execPath, ["--import", "tsx", "server/build-library.ts"], { cwd: ROOT });
  server = await serveDemo();
}, 300_000);
afterAll(async () => {
  await server?.close();
  await rm(folder, { recursive: true, force: true });
});

const notebook = JSON.parse(readFileSync(join(EXAMPLES, "tensions.ipynb"), "utf8")) as {
  cells: { cell_type: string; source: string[] }[];
};
const cells = notebook.cells.filter((cell) => cell.cell_type === "code").map((cell) => cell.source.join(""));

it("the script tells what a teacher would say", async () => {
  const given = [server.url, SOLO, "blues-quick-change", "F"];
  const { stdout, stderr } = await run(process.execPath, [join(EXAMPLES, "findings.mjs"), ...given]);
  expect(stderr).toBe("");
  const lines = stdout.trim().split("\n");
  expect(lines.length).toBeGreaterThan(2);
  for (const line of lines) expect(line).toMatch(/^(works|practise|notice): .+ \[(\d+\.-?\d+ ?)*\]$/);
});

it("the README's example of the library runs as it stands", async () => {
  copyFileSync(SOLO, join(folder, "solo.mid"));
  const example = /```js\n([\s\S]*?)```/.exec(README)![1]!.replace("http://127.0.0.1:4000", server.url);
  // Within the package, so that it is imported by its name.
  const script = join(ROOT, "dist/readme-example.mjs");
  writeFileSync(script, `${example}console.log(takes.length);\n`);
  const { stdout } = await run(process.execPath, [script], { cwd: folder });
  rmSync(script);
  expect(stdout).toMatch(/^\[\n/);
  expect(stdout.trim().split("\n").at(-1)).toBe(String(demoClass.takes.length));
});

it("the README's commands run as they stand", async () => {
  copyFileSync(SOLO, join(folder, "solo.mid"));
  const commands = README.match(/^npm run -s ledgerline -- analyse .*$/gm)!;
  expect(commands).toHaveLength(2);
  const printed: string[] = [];
  for (const command of commands) {
    const here = command.replace("npm run", `npm --prefix ${ROOT} run`);
    printed.push((await run("bash", ["-euc", here], { cwd: folder })).stdout);
  }
  expect(printed[0]).toMatch(/blues with quick change in F/);
  expect(readdirSync(join(folder, "tables"))).toEqual(["solo.csv"]);
});

it.skipIf(!hasChromium)(
  "the page tells every note of a file, and what is wrong with one that is no solo (Chromium)",
  async () => {
    const made = await build({
      entryPoints: [join(EXAMPLES, "note-by-note.js")],
      bundle: true,
      write: false,
      format: "esm",
    });
    const browser = await launch();
    const page = await browser.newPage();
    const html = readFileSync(join(EXAMPLES, "note-by-note.html"), "utf8");
    await page.setContent(html.replace(/<script[^>]*><\/script>/, ""));
    await page.addScriptTag({ type: "module", content: made.outputFiles[0]!.text });
    await page.setInputFiles("input", SOLO);
    await page.waitForSelector("li:nth-child(50)");
    const told = await page.$$eval("li", (items) => items.map((item) => item.textContent));
    const take = demoClass.takes.find(({ id }) => id === "tilda-week-8")!;
    expect(told.length).toBe(demoAccount(take).notes.filter((note) => note.solo).length);
    const text = join(folder, "words.mid");
    writeFileSync(text, "no music at all");
    await page.setInputFiles("input", text);
    await page.waitForSelector("li:only-child");
    expect(await page.textContent("li")).toMatch(/\. [A-Z]/);
    await browser.close();
  },
);

describe("the notebook", () => {
  it("asks what the account says, by DuckDB", async () => {
    const file = join(folder, "notes.parquet");
    const answer = await fetch(`${server.url}/api/takes/tilda-week-8/notes?format=parquet`);
    writeFileSync(file, new Uint8Array(await answer.arrayBuffer()));
    const asked = cells.flatMap((text) => [...text.matchAll(/f"""([^"]+)"""/g)].map(([, sql]) => sql!));
    expect(asked).toHaveLength(2);
    const database = await (await DuckDBInstance.create(":memory:")).connect();
    const [tensions, downbeats] = await Promise.all(
      asked.map(async (sql) =>
        (await database.runAndReadAll(sql.replaceAll("{notes}", file))).getRowObjects(),
      ),
    );
    const account = await (await fetch(`${server.url}/api/takes/tilda-week-8/analysis`)).json();
    for (const chorus of account.choruses) {
      const row = tensions!.find((one) => Number(one.chorus) === chorus.chorus)!;
      expect(Number(row.notes)).toBe(chorus.notes);
      expect(Number(row.tensions)).toBeCloseTo(chorus.roles.tension ?? 0, 3);
    }
    expect(downbeats!.length).toBeGreaterThan(1);
  });

  it.skipIf(!hasPythonDuckdb)("runs from its first cell to its last (Python with duckdb)", async () => {
    const script = join(folder, "notebook.py");
    writeFileSync(script, cells.join("\n"));
    const { stdout } = await run("python3", [script], { env: { ...process.env, LEDGERLINE: server.url } });
    expect(stdout).toMatch(/chorus.*notes.*tensions/s);
    expect(existsSync(script)).toBe(true);
  });
});
