/** Each law is shown to notice what it forbids: a small house in which it is broken once, and a near miss beside it. */
import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, describe, expect, it } from "vitest";
import type { Breach } from "./breach.ts";
import { guideBreaches, withTable } from "./guide.ts";
import { readLawData } from "./law-data.ts";
import { lawBreaches } from "./laws.ts";
import { MOST_FILE_LINES, MOST_FUNCTION_LINES } from "./lengths.ts";
import { readSource, readTree } from "./tree.ts";

const ROOT = fileURLToPath(new URL("../..", import.meta.url));
const HOUSES = mkdtempSync(join(tmpdir(), "ledgerline-house-"));
const house = readLawData();

afterAll(() => rmSync(HOUSES, { recursive: true, force: true }));

/** The breaches of a house of these files, as "where what". */
function breachesOf(texts: Readonly<Record<string, string>>): string[] {
  const files = Object.entries(texts).map(([path, text]) => readSource(path, text));
  return lawBreaches(files, house).map(told);
}

function told({ where, text }: Breach): string {
  return `${where} ${text}`;
}

/** A function of so many lines. */
function lines(count: number, name = "long"): string {
  return `export function ${name}(): void {\n${"  step();\n".repeat(count - 2)}}\n`;
}

describe("imports between rooms", () => {
  it("are named where the table does not allow them, types too", () => {
    const found = breachesOf({
      "src/take/note.ts": `import { parseChart } from "../chart/chart-text.ts";\n`,
      "src/chart/chart-text.ts": `import type { NoteLabel } from "../harmony/labels.ts";\nexport const parseChart = 1;\n`,
      "src/harmony/labels.ts": `import { parseChart } from "../chart/chart-text.ts";\n`,
    });
    expect(found).toContainEqual(
      expect.stringMatching(/^src\/take\/note\.ts:1 imports src\/chart\/chart-text\.ts: /),
    );
    expect(found).toContainEqual(expect.stringMatching(/^src\/chart\/chart-text\.ts:1 imports src\/harmony/));
    expect(found.filter((text) => text.startsWith("src/harmony"))).toEqual([]);
  });

  it("count however they are written: import(), export from, import type", () => {
    for (const line of [
      `export * from "../../server/app.ts";`,
      `const app = await import("../../server/app.ts");`,
      `type App = import("../../server/app.ts").App;`,
      `import type { App } from "../../server/app.ts";`,
    ]) {
      expect(breachesOf({ "src/export/text.ts": line }), line).toEqual([
        expect.stringContaining("server/app.ts"),
      ]);
    }
  });

  it("may be of types where only types are allowed", () => {
    const types = { "client/take/take.ts": `import type { Found } from "../../src/motif/search.ts";` };
    const code = { "client/take/take.ts": `import { search } from "../../src/motif/search.ts";` };
    expect(breachesOf(types)).toEqual([]);
    expect(breachesOf(code)).toEqual([expect.stringContaining("imports src/motif/search.ts")]);
  });

  it("need a room: a folder that the table does not know is named", () => {
    expect(breachesOf({ "src/attic/box.ts": "" })).toEqual([expect.stringContaining("stands in no room")]);
  });

  it("do not run in rings", () => {
    const ring = {
      "src/take/a.ts": `import type { B } from "./b.ts";`,
      "src/take/b.ts": `import type { C } from "./c.ts";`,
      "src/take/c.ts": `import type { A } from "./a.ts";`,
    };
    expect(breachesOf(ring)).toEqual([
      "src/take/a.ts imports itself: src/take/a.ts -> src/take/b.ts -> src/take/c.ts -> src/take/a.ts",
    ]);
    expect(breachesOf({ ...ring, "src/take/c.ts": "" })).toEqual([]);
  });

  it("bring no file or socket into src", () => {
    const found = breachesOf({
      "src/take/a.ts": `import "node:fs";\nimport pg from "pg";\nimport { z } from "zod";`,
    });
    expect(found).toEqual([
      expect.stringContaining("imports node:fs"),
      expect.stringContaining("imports pg"),
    ]);
  });
});

describe("lengths", () => {
  const most = lines(MOST_FUNCTION_LINES);
  const over = lines(MOST_FUNCTION_LINES + 1);

  it("of a function, and of a file", () => {
    expect(breachesOf({ "server/a.ts": most })).toEqual([]);
    expect(breachesOf({ "server/a.ts": over })).toEqual([
      expect.stringMatching(/^server\/a\.ts:1 long has 81 lines/),
    ]);
    expect(breachesOf({ "server/a.ts": "a;\n".repeat(MOST_FILE_LINES) })).toEqual([]);
    expect(breachesOf({ "server/a.ts": "a;\n".repeat(MOST_FILE_LINES + 1) })).toHaveLength(1);
  });

  it("count in a method, a property and an arrow", () => {
    const body = "  step();\n".repeat(MOST_FUNCTION_LINES);
    for (const [name, text] of [
      ["draw", `export const view = { draw() {\n${body}} };`],
      ["draw", `export const view = { draw: () => {\n${body}} };`],
      ["page", `const page = () => {\n${body}};`],
    ]) {
      expect(breachesOf({ "client/views/a.ts": text! })).toEqual([expect.stringContaining(`${name} has`)]);
    }
  });
});

describe("lists", () => {
  const rule = `export const rangeWide: Rule = { id: "range-wide" };\n`;

  it("name every rule of findings", () => {
    const index = `import { rangeWide } from "./range-wide.ts";\nexport const RANGE: readonly Rule[] = [`;
    const all = `import { RANGE } from "./range/index.ts";\nexport const RULES: readonly Rule[] = [...RANGE];`;
    const texts = { "src/findings/rules/range/range-wide.ts": rule, "src/findings/rules/index.ts": all };
    const home = "src/findings/rules/range/index.ts";
    expect(breachesOf({ ...texts, [home]: `${index}rangeWide];` })).toEqual([]);
    expect(breachesOf({ ...texts, [home]: `${index}];` })).toEqual([
      `src/findings/rules/range/range-wide.ts rangeWide is not in ${home}, so it never runs: list it there`,
    ]);
    const copy = "src/findings/rules/range/copied.ts";
    expect(breachesOf({ ...texts, [copy]: rule, [home]: `${index}rangeWide];` })).toEqual([
      `${copy} rangeWide is not in ${home}, so it never runs: list it there`,
    ]);
  });

  it("name every maker of exercises, rule of the line and route", () => {
    const found = breachesOf({
      "src/practice/makers.ts": "",
      "src/practice/scales.ts":
        "export function scaleBars(context: PracticeContext): ExerciseBar[] { return []; }",
      "src/harmony/line-role.ts": "",
      "src/harmony/turn.ts":
        "export function turn(line: JoinedLine, i: number): Found | null { return null; }",
      "server/routes/index.ts": "",
      "server/routes/word.ts": "export const wordRoutes: readonly Route[] = [];",
    });
    expect(found.map((text) => text.split(" ")[1])).toEqual(["scaleBars", "turn", "wordRoutes"]);
  });
});

describe("this house", () => {
  it("keeps the laws, and its guide says what they are", () => {
    const files = readTree(ROOT, ["src", "server", "client", "corpus", "tests"]);
    expect(files.length).toBeGreaterThan(500);
    expect(lawBreaches(files, readLawData()).map(told)).toEqual([]);
    const guide = readFileSync(join(ROOT, "DEVELOPERS.md"), "utf8");
    expect(guideBreaches(guide, house)).toEqual([]);
    expect(guideBreaches(guide.replace("| nothing", "| all of src"), house)).toHaveLength(1);
    expect(withTable(guide, house)).toBe(guide);
  });

  it("lets src see no page and no Node", () => {
    const found = checkTypes("src", "src/take/planted.ts", {
      "src/take/planted.ts": "export const page = document.title;\nexport const version = process.version;\n",
    });
    expect(found).toContain("Cannot find name 'document'");
    expect(found).toContain("Cannot find name 'process'");
  });

  it("names an export that nothing imports", () => {
    const root = build("unused", {
      "package.json": `{ "name": "house", "type": "module" }`,
      ".knip.json": readFileSync(join(ROOT, ".knip.json"), "utf8"),
      "server/main.ts": `import { used } from "../src/words.ts";\nconsole.log(used);\n`,
      "src/words.ts": "export const used = 1;\nexport const unused = 2;\n",
      "src/alone.ts": "export const alone = 3;\n",
    });
    const { stdout, status } = run(join(ROOT, "node_modules/knip/bin/knip.js"), ["--no-progress"], root);
    expect(status).toBe(1);
    expect(stdout).toMatch(/unused\s+src\/words\.ts:2/);
    expect(stdout).toMatch(/Unused files \(1\)\s+src\/alone\.ts/);
    expect(stdout).not.toMatch(/\bused\s+src\/words\.ts:1/);
  });
});

function build(name: string, texts: Readonly<Record<string, string>>): string {
  const root = join(HOUSES, name);
  for (const [path, text] of Object.entries(texts)) {
    mkdirSync(dirname(join(root, path)), { recursive: true });
    writeFileSync(join(root, path), text);
  }
  return root;
}

/** What the type checker says of one file under the settings of a folder. */
function checkTypes(folder: string, path: string, texts: Readonly<Record<string, string>>): string {
  const settings = Object.fromEntries(
    ["tsconfig.json", `${folder}/tsconfig.json`].map((file) => [
      file,
      readFileSync(join(ROOT, file), "utf8"),
    ]),
  );
  const root = build("types", { ...settings, "package.json": `{ "type": "module" }`, ...texts });
  symlinkSync(join(ROOT, "node_modules"), join(root, "node_modules"));
  const { stdout } = run(join(ROOT, "node_modules/typescript/lib/tsc.js"), ["-p", folder], root);
  return stdout
    .split("\n")
    .filter((line) => line.startsWith(path))
    .join("\n");
}

function run(
  script: string,
  given: readonly string[],
  cwd: string,
): { stdout: string; status: number | null } {
  return spawnSync(process.execPath, [script, ...given], { cwd, encoding: "utf8" });
}
