/**
 * `npm run build`: everything into `dist`, so that it runs where only the packages of production are installed: the
 * pages, the package as others import it, the programs of this folder, and a file for each kind of thread.
 */
import { execFileSync } from "node:child_process";
import { copyFileSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import { BUNDLED_FOR, THREAD_BUNDLE, THREADS } from "./analysis/thread-file.ts";
import { programOptions } from "./bundle.ts";

const ROOT = fileURLToPath(new URL("..", import.meta.url));
const PROGRAMS = ["main", "worker", "cli", "token"];

execFileSync(process.execPath, ["node_modules/vite/bin/vite.js", "build", "client", "--logLevel", "warn"], {
  cwd: ROOT,
  stdio: "inherit",
});

await import("./build-library.ts");

rmSync(join(ROOT, "dist/server"), { recursive: true, force: true });
await build({ ...programOptions(PROGRAMS), outdir: join(ROOT, "dist/server"), splitting: true });

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
