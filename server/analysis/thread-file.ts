/**
 * What runs in a thread, as one file of JavaScript. A thread that read TypeScript itself would carry a compiler and
 * its helper thread along, some 50 MB each, and take seconds to start.
 */
import { createHash } from "node:crypto";
import { existsSync, mkdirSync, renameSync, writeFileSync } from "node:fs";
import { basename, join } from "node:path";
import { fileURLToPath } from "node:url";
import { buildSync } from "esbuild";

/**
 * Packages are bundled too: one of them has to be loaded between two files of ours, and a module's imports are loaded
 * before all of its own text. Those that are CommonJS ask for parts of Node by this function.
 */
const REQUIRE = `import { createRequire as requireAt } from "node:module"; const require = requireAt(import.meta.url);`;

const FOLDER = fileURLToPath(new URL("../../dist/threads/", import.meta.url));

const made = new Map<string, string>();

/**
 * Bundles a TypeScript file of ours, once in the life of the process. The file's name tells its content, so several
 * processes may do so at once.
 *
 * @param source URL of the file whose default export the thread runs
 * @param loaded packages that are not bundled but loaded by the thread
 * @returns path of the bundle
 */
export function threadFile(source: string, loaded: readonly string[] = []): string {
  const known = made.get(source);
  if (known !== undefined) return known;
  const { outputFiles } = buildSync({
    entryPoints: [fileURLToPath(source)],
    bundle: true,
    write: false,
    platform: "node",
    format: "esm",
    target: "node20",
    external: loaded.flatMap((name) => [name, `${name}/*`]),
    banner: { js: REQUIRE },
  });
  const { contents } = outputFiles[0]!;
  const hash = createHash("sha256").update(contents).digest("hex").slice(0, 16);
  const file = join(FOLDER, `${basename(fileURLToPath(source), ".ts")}-${hash}.mjs`);
  if (!existsSync(file)) {
    mkdirSync(FOLDER, { recursive: true });
    const half = `${file}.${process.pid}`;
    writeFileSync(half, contents);
    renameSync(half, file);
  }
  made.set(source, file);
  return file;
}
