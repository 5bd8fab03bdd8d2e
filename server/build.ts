/**
 * `npm run build`: everything into `dist`, so that it runs where only the packages of production are installed: the
 * pages, the package as others import it, the programs of this folder, and a file for each kind of thread.
 */
import { execFileSync } from "node:child_process";
import { copyFileSync, readFileSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import { join, relative } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { build, type Plugin } from "esbuild";
import { BUNDLED_FOR, THREAD_BUNDLE, THREADS } from "./analysis/thread-file.ts";

const ROOT = fileURLToPath(new URL("..", import.meta.url));
const PROGRAMS = ["main", "worker", "cli", "token"];

/** Has to be loaded between two files of ours, so it is bundled with them. */
const WITHIN = "musicxml-interfaces";

/** A file of ours still finds what lies beside its source: the corpus, the thread files, plain JavaScript. */
const asInSource: Plugin = {
  name: "as-in-source",
  setup({ onLoad }) {
    onLoad({ filter: /[\\/](server|src)[\\/].*\.ts$/ }, ({ path }) => {
      const text = readFileSync(path, "utf8");
      if (!text.includes("import.meta.url")) return undefined;
      const place = JSON.stringify(pathToFileURL(`/${relative(ROOT, path)}`).pathname.slice(1));
      const contents = text.replaceAll("import.meta.url", `new URL(${place}, LEDGERLINE_ROOT).href`);
      return { contents, loader: "ts" };
    });
  },
};

const { dependencies } = JSON.parse(readFileSync(join(ROOT, "package.json"), "utf8")) as {
  dependencies: Readonly<Record<string, string>>;
};

execFileSync(process.execPath, ["node_modules/vite/bin/vite.js", "build", "client", "--logLevel", "warn"], {
  cwd: ROOT,
  stdio: "inherit",
});

await import("./build-library.ts");

rmSync(join(ROOT, "dist/server"), { recursive: true, force: true });
await build({
  ...BUNDLED_FOR,
  entryPoints: PROGRAMS.map((name) => join(ROOT, "server", `${name}.ts`)),
  outdir: join(ROOT, "dist/server"),
  outExtension: { ".js": ".mjs" },
  splitting: true,
  external: ["esbuild", ...Object.keys(dependencies).filter((name) => name !== WITHIN)].flatMap((name) => [
    name,
    `${name}/*`,
  ]),
  plugins: [asInSource],
  banner: { js: `${BUNDLED_FOR.banner.js} const LEDGERLINE_ROOT = new URL("../../", import.meta.url);` },
});

for (const [name, { source, loaded }] of Object.entries(THREADS)) {
  await build({
    ...BUNDLED_FOR,
    entryPoints: [fileURLToPath(source)],
    outfile: THREAD_BUNDLE(name),
    // The runtime of the network is a hundred megabytes with its other builds; one file of it is needed.
    external: loaded.filter((one) => one !== "onnxruntime-web").flatMap((one) => [one, `${one}/*`]),
  });
}
const wasm = "ort-wasm-simd-threaded.wasm";
copyFileSync(
  createRequire(import.meta.url).resolve(`onnxruntime-web/${wasm}`),
  join(ROOT, "dist/threads", wasm),
);
copyFileSync(join(ROOT, "src/listen/network/piano.onnx"), join(ROOT, "dist/threads/piano.onnx"));
