/** What `npm run build` makes runs where only the packages of production are installed. */
import { execFileSync, spawnSync } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { readTree } from "../house/tree.ts";

const ROOT = fileURLToPath(new URL("../..", import.meta.url));
const { dependencies, devDependencies } = JSON.parse(readFileSync(join(ROOT, "package.json"), "utf8")) as {
  dependencies: Record<string, string>;
  devDependencies: Record<string, string>;
};

/** What the build takes into its own files, and the build itself. */
const BUILT_IN = ["onnxruntime-web"];

it("what the server and the analysis import is a package of production", () => {
  const files = readTree(ROOT, ["src", "server"]).filter(({ path }) => path !== "server/build.ts");
  const names = files
    .flatMap(({ imports }) => imports)
    .filter(({ target, typeOnly, request }) => target === null && !typeOnly && !request.startsWith("node:"))
    .map(({ request }) => request.split("/", request.startsWith("@") ? 2 : 1).join("/"));
  const wanted = [...new Set(names)].filter((name) => !BUILT_IN.includes(name));
  expect(wanted.filter((name) => dependencies[name] === undefined)).toEqual([]);
  expect(Object.keys(dependencies).filter((name) => devDependencies[name] !== undefined)).toEqual([]);
});

describe("an installation without the tools that build", () => {
  const place = mkdtempSync(join(tmpdir(), "ledgerline-built-"));
  afterAll(() => rmSync(place, { recursive: true, force: true }));

  beforeAll(() => {
    const env = { ...process.env, NODE_ENV: "production" };
    execFileSync(process.execPath, ["--import", "tsx", "server/build.ts"], {
      cwd: ROOT,
      env,
      stdio: "ignore",
    });
    for (const path of ["package.json", "server/run.js", "dist/server", "dist/threads", "corpus/takes"]) {
      mkdirSync(dirname(join(place, path)), { recursive: true });
      cpSync(join(ROOT, path), join(place, path), { recursive: true });
    }
    for (const name of Object.keys(dependencies)) {
      mkdirSync(dirname(join(place, "node_modules", name)), { recursive: true });
      symlinkSync(join(ROOT, "node_modules", name), join(place, "node_modules", name));
    }
  }, 300_000);

  const run = (...given: string[]) =>
    spawnSync(process.execPath, ["server/run.js", ...given], { cwd: place, encoding: "utf8" });

  it("analyses a take by the command line", () => {
    const form = ["--form", "blues-minor", "--key", "A"];
    const { stdout, stderr } = run("cli", "analyse", "corpus/takes/bram-minor-blues.mid", ...form);
    expect(stderr).toBe("");
    expect(JSON.parse(stdout).notes.length).toBeGreaterThan(100);
  });

  it("says what is missing when it has not been built", () => {
    rmSync(join(place, "dist/server"), { recursive: true });
    const { stderr, status } = run("cli", "analyse", "corpus/takes/bram-minor-blues.mid");
    expect(status).toBe(1);
    expect(stderr).toMatch(/has not been built\. Build it .*npm run build/);
  });
});
