/**
 * `npm run build:library`: the package as others import it, into `dist/library`: `ledgerline` (the analysis) and
 * `ledgerline/client` (the API), as modules of JavaScript with their types.
 */
import { execFileSync } from "node:child_process";
import { readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build, type Plugin } from "esbuild";

const ROOT = fileURLToPath(new URL("..", import.meta.url));
const OUT = join(ROOT, "dist/library");

/** Has to be loaded between two files of ours, so it is bundled with them. */
const WITHIN = "musicxml-interfaces";

/** It asks Node for programs where it is given no reader of XML; it is given one. */
const withoutPrograms: Plugin = {
  name: "without-programs",
  setup({ onResolve, onLoad }) {
    onResolve({ filter: /^(child_process|path)$/ }, ({ path }) => ({ path, namespace: "none" }));
    onLoad({ filter: /.*/, namespace: "none" }, () => ({ contents: "" }));
  },
};

const { dependencies } = JSON.parse(readFileSync(join(ROOT, "package.json"), "utf8")) as {
  dependencies: Readonly<Record<string, string>>;
};

rmSync(OUT, { recursive: true, force: true });
await build({
  entryPoints: { index: join(ROOT, "src/library.ts"), client: join(ROOT, "server/api-client.ts") },
  outdir: OUT,
  bundle: true,
  // Neither a browser nor Node: what is pure must not ask for either.
  platform: "neutral",
  mainFields: ["module", "main"],
  format: "esm",
  target: "es2022",
  external: Object.keys(dependencies)
    .filter((name) => name !== WITHIN)
    .flatMap((name) => [name, `${name}/*`]),
  plugins: [withoutPrograms],
});

execFileSync(process.execPath, ["node_modules/typescript/bin/tsc", "-p", "server/library.tsconfig.json"], {
  cwd: ROOT,
  stdio: "inherit",
});
nameAsBuilt(join(OUT, "types"));

/** Declarations name their neighbours as sources; beside built modules they are found by the ending of those. */
function nameAsBuilt(folder: string): void {
  for (const file of readdirSync(folder, { recursive: true, withFileTypes: true })) {
    if (!file.isFile()) continue;
    const path = join(file.parentPath, file.name);
    writeFileSync(path, readFileSync(path, "utf8").replace(/(["'])(\.{1,2}\/[^"']+)\.ts\1/g, "$1$2.js$1"));
  }
}
