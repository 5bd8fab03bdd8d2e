/**
 * What runs in a thread or a process of its own, as one file of JavaScript. A thread that read TypeScript itself would carry a compiler and
 * its helper thread along, some 50 MB each, and take seconds to start.
 */
import { existsSync, mkdirSync, renameSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { stateOf } from "./source-state.ts";

/** All kinds of thread: where the source stands, and packages that it loads from where they are installed. */
export const THREADS = {
  analysis: { source: new URL("./worker.ts", import.meta.url), loaded: [] },
  proposal: { source: new URL("./propose-worker.ts", import.meta.url), loaded: [] },
  search: { source: new URL("../corpus/search-worker.ts", import.meta.url), loaded: [] },
  unfold: { source: new URL("../corpus/unfold-worker.ts", import.meta.url), loaded: [] },
  /** Hands its results over by the pool's own marks. */
  table: { source: new URL("../corpus/table-chunk.ts", import.meta.url), loaded: ["piscina"] },
  store: {
    source: new URL("../store/store-worker.ts", import.meta.url),
    loaded: ["@electric-sql/pglite"],
  },
  /** A process of its own. These hold WebAssembly, or find it beside themselves. */
  hear: {
    source: new URL("../listen/hear-process.ts", import.meta.url),
    loaded: ["audio-decode", "onnxruntime-web"],
  },
} as const satisfies Readonly<Record<string, { readonly source: URL; readonly loaded: readonly string[] }>>;

export type ThreadKind = keyof typeof THREADS;

/**
 * Packages are bundled too: one of them has to be loaded between two files of ours, and a module's imports are loaded
 * before all of its own text. Those that are CommonJS ask for parts of Node by this function.
 */
const REQUIRE = `import { createRequire as requireAt } from "node:module"; const require = requireAt(import.meta.url);`;

export const BUNDLED_FOR = {
  bundle: true,
  platform: "node",
  format: "esm",
  target: "node20",
  banner: { js: REQUIRE },
} as const;

const ROOT = fileURLToPath(new URL("../../", import.meta.url));
const FOLDER = join(ROOT, "dist/threads");

/** Where `npm run build` puts the bundle of a kind of thread. */
export const THREAD_BUNDLE = (kind: string): string => join(FOLDER, `${kind}.mjs`);

const made = new Map<ThreadKind, string>();

/**
 * The file that a thread runs: bundled once for a state of the sources where the bundler and the sources are, else the
 * one that was built beforehand. A bundle's name tells that state, so several processes may make it at once.
 *
 * @returns path of the bundle
 */
export function threadFile(kind: ThreadKind): string {
  const known = made.get(kind);
  if (known !== undefined) return known;
  const bundler = bundlerOf(kind);
  const file =
    bundler === null ? THREAD_BUNDLE(kind) : (before(kind) ?? kept(kind, bundler.buildSync(optionsOf(kind))));
  made.set(kind, file);
  return file;
}

/**
 * Makes the files of these kinds beforehand, beside what this thread does: the first zip or search would hold up
 * everybody while its thread is bundled.
 */
export async function makeThreadFiles(kinds: readonly ThreadKind[]): Promise<void> {
  await Promise.all(
    kinds.map(async (kind) => {
      const bundler = made.has(kind) ? null : bundlerOf(kind);
      if (bundler !== null) made.set(kind, before(kind) ?? kept(kind, await bundled(bundler, kind)));
    }),
  );
}

let bundling = 0;

/** The bundler is a process that takes some 280 MB; it ends when nothing is left for it to do. */
async function bundled(bundler: Bundler, kind: ThreadKind) {
  bundling++;
  try {
    return await bundler.build(optionsOf(kind));
  } finally {
    bundling--;
    if (bundling === 0) await bundler.stop();
  }
}

type Bundler = typeof import("esbuild");

/** A tool of development: null where only the packages of production are installed, or the sources are not. */
function bundlerOf(kind: ThreadKind): Bundler | null {
  if (!existsSync(fileURLToPath(THREADS[kind].source))) return null;
  try {
    return createRequire(import.meta.url)("esbuild") as Bundler;
  } catch {
    return null;
  }
}

function optionsOf(kind: ThreadKind) {
  const { source, loaded } = THREADS[kind];
  return {
    ...BUNDLED_FOR,
    entryPoints: [fileURLToPath(source)],
    write: false as const,
    external: loaded.flatMap((name) => [name, `${name}/*`]),
  };
}

/** @returns where the bundle lies */
function kept(
  kind: ThreadKind,
  { outputFiles }: { readonly outputFiles: readonly { readonly contents: Uint8Array }[] },
): string {
  const file = fileNow(kind);
  mkdirSync(FOLDER, { recursive: true });
  const half = `${file}.${process.pid}`;
  writeFileSync(half, outputFiles[0]!.contents);
  renameSync(half, file);
  return file;
}

/** @returns where the bundle lies that another process, or this one's last run, made of the same sources */
function before(kind: ThreadKind): string | null {
  const file = fileNow(kind);
  return existsSync(file) ? file : null;
}

const fileNow = (kind: ThreadKind): string => join(FOLDER, `${kind}-${stateOfSources()}.mjs`);

let state: string | undefined;

/** The list of packages stands for the packages. */
function stateOfSources(): string {
  state ??= stateOf(["server", "src", "package-lock.json"].map((room) => join(ROOT, room)));
  return state;
}
