/** What `npm run build` makes runs where only the packages of production are installed. */
import { execFileSync, spawnSync } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { readTree } from "../house/tree.ts";
import { piano, wave } from "../listen/sounds.ts";
import { sent } from "./calls.ts";
import { serve } from "./harness.ts";

const ROOT = fileURLToPath(new URL("../..", import.meta.url));
const { dependencies, devDependencies } = JSON.parse(readFileSync(join(ROOT, "package.json"), "utf8")) as {
  dependencies: Record<string, string>;
  devDependencies: Record<string, string>;
};

const TAKE = join(ROOT, "corpus/takes/bram-minor-blues.mid");
const TSC = join(ROOT, "node_modules/typescript/bin/tsc");

/** What the build takes into its own files, and the build itself. */
const BUILT_IN = ["onnxruntime-web"];

it("what the server and the analysis import is a package of production", () => {
  const files = readTree(ROOT, ["src", "server"]).filter(
    ({ path }) =>
      !/^server\/(build(-library)?|bundle(-program)?|reference\/(make|scan|bundled))\.ts$/.test(path),
  );
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

  const app = join(place, "app");
  const inApp = { cwd: app, encoding: "utf8", maxBuffer: 2 ** 26 } as const;
  /** Packs what was built, and installs it beside the packages that it names, which are there already. */
  const install = () => {
    const quiet = ["--ignore-scripts", "--json"];
    const packed = spawnSync("npm", ["pack", ...quiet, "--pack-destination", place], {
      cwd: ROOT,
      encoding: "utf8",
    });
    mkdirSync(app);
    cpSync(join(place, "node_modules"), join(app, "node_modules"), {
      recursive: true,
      verbatimSymlinks: true,
    });
    writeFileSync(join(app, "package.json"), '{"type":"module","private":true}');
    const file = join(place, JSON.parse(packed.stdout)[0].filename);
    execFileSync("npm", ["install", "--offline", "--no-package-lock", "--no-save", ...quiet, file], inApp);
    return packed;
  };

  const run = (...given: string[]) =>
    spawnSync(process.execPath, ["server/run.js", ...given], { cwd: place, encoding: "utf8" });

  it("analyses a take by the command line", () => {
    const form = ["--form", "blues-minor", "--key", "A"];
    const { stdout, stderr } = run("cli", "analyse", "corpus/takes/bram-minor-blues.mid", ...form);
    expect(stderr).toBe("");
    expect(JSON.parse(stdout).notes.length).toBeGreaterThan(100);
  });

  it("is packed without sources, tests and data, and installed into an empty project", () => {
    const { stdout } = install();
    const files = (JSON.parse(stdout)[0].files as { path: string }[]).map(({ path }) => path);
    expect(files.filter((path) => /^(tests|corpus|client|src)\/|(?<!\.d)\.ts$|\.mid$/.test(path))).toEqual(
      [],
    );
    expect(files).toEqual(expect.arrayContaining(["LICENSE", "README.md", "CHANGELOG.md", "server/bin.js"]));
  });

  it("is imported in Node without a side effect, and gives the account that the server gives", () => {
    const script = `
      // zod keeps a registry of its own.
      const names = () => Object.getOwnPropertyNames(globalThis).filter((name) => !name.startsWith("__zod_")).join();
      const before = names();
      const { analyse, chartText, formChart, ANALYSIS_VERSION } = await import("ledgerline");
      const { readFileSync } = await import("node:fs");
      const bytes = new Uint8Array(readFileSync(process.argv[1]));
      const account = analyse(bytes, chartText(formChart("blues-minor", "A")), { name: "bram-minor-blues.mid" });
      const untouched = before === names();
      console.log(JSON.stringify({ untouched, version: ANALYSIS_VERSION, account }));`;
    const given = spawnSync(process.execPath, ["--input-type=module", "-e", script, TAKE], inApp);
    expect(given.stderr).toBe("");
    const { untouched, version, account } = JSON.parse(given.stdout);
    expect(untouched).toBe(true);
    expect(account.analysisVersion).toBe(version);
    const form = ["--form", "blues-minor", "--key", "A"];
    const told = spawnSync("node_modules/.bin/ledgerline", ["analyse", TAKE, ...form], inApp);
    expect(told.stderr).toBe("");
    expect(JSON.parse(told.stdout)).toEqual(account);
  });

  it("makes a store again from a backup", async () => {
    const server = await serve();
    const player = await (await fetch(`${server.url}/api/players`, sent("POST", { name: "Runa" }))).json();
    const backup = await fetch(`${server.url}/api/backup`);
    writeFileSync(join(app, "class.gz"), new Uint8Array(await backup.arrayBuffer()));
    await server.close();
    const env = { ...process.env, DATA_DIR: join(app, "again") };
    const told = spawnSync("node_modules/.bin/ledgerline", ["restore", "class.gz"], { ...inApp, env });
    expect([told.stderr, told.status]).toEqual(["", 0]);
    const again = await serve({ dataDir: join(app, "again") });
    expect((await (await fetch(`${again.url}/api/players`)).json()).players).toMatchObject([
      { id: player.id },
    ]);
    await again.close();
    // Two servers and a restore take a while on a busy machine.
  }, 120_000);

  it("hears a recording: the notes that were struck, in order", () => {
    const pitches = [60, 64, 67, 72, 71, 67, 65, 62, 60];
    const struck = pitches.map((pitch, i) => ({ pitch, onset: 0.5 + 0.4 * i, end: 0.88 + 0.4 * i }));
    writeFileSync(join(app, "solo.wav"), wave(piano(struck, 5)));
    const told = spawnSync(
      "node_modules/.bin/ledgerline",
      ["analyse", "solo.wav", "--form", "blues-minor", "--key", "C"],
      inApp,
    );
    expect(told.stderr).toBe("");
    const { source, notes } = JSON.parse(told.stdout) as {
      source: { format: string };
      notes: { pitch: number }[];
    };
    expect(source.format).toBe("sound");
    expect(notes.map(({ pitch }) => pitch)).toEqual(pitches);
  });

  it("has types, for the analysis and for the client of the API", () => {
    writeFileSync(
      join(app, "user.ts"),
      `import { type Analysis, analyse } from "ledgerline";
       import { createClient } from "ledgerline/client";
       export const account: Analysis = analyse(new Uint8Array(), null);
       export const beats: number | null = account.notes[0]!.beats;
       export const titles = createClient("http://127.0.0.1:4000").takes().then((all) => all.map((one) => one.title));
       // @ts-expect-error a field that there is not
       export const wrong = account.notes[0]!.beatz;
       // @ts-expect-error a title is text
       export const number: Promise<number[]> = titles;`,
    );
    const flags = ["--noEmit", "--strict", "--module", "nodenext", "--target", "es2022", "user.ts"];
    const { stdout, status } = spawnSync(process.execPath, [TSC, ...flags], inApp);
    expect([stdout, status]).toEqual(["", 0]);
  });

  it("goes through a bundler for a page, which takes nothing of it that is not used", async () => {
    const bundle = async (text: string) => {
      const stdin = { contents: text, resolveDir: app };
      const made = await build({
        stdin,
        bundle: true,
        write: false,
        minify: true,
        format: "esm",
        platform: "browser",
      });
      return made.outputFiles[0]!.text.length;
    };
    expect(await bundle('import "ledgerline"; import "ledgerline/client";')).toBeLessThan(100);
    expect(await bundle('import { analyse } from "ledgerline"; console.log(analyse);')).toBeGreaterThan(
      100_000,
    );
  });

  it("says what is missing when it has not been built", () => {
    rmSync(join(place, "dist/server"), { recursive: true });
    const { stderr, status } = run("cli", "analyse", "corpus/takes/bram-minor-blues.mid");
    expect(status).toBe(1);
    expect(stderr).toMatch(/has not been built\. Build it .*npm run build/);
  });
});
