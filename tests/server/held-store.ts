/**
 * The program of the embedded store, compiled once in a process of tests. A process shares what it has compiled with all
 * of its threads for as long as somebody holds it; each of some two hundred stores would compile it anew and, as it
 * grows warm, optimise it anew: more than half of what a server's start takes.
 */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";

const FOLDER = dirname(createRequire(import.meta.url).resolve("@electric-sql/pglite"));

let held: Promise<WebAssembly.Module> | undefined;

/** Compiles it unless it is held already. */
export async function holdStore(): Promise<void> {
  held ??= WebAssembly.compile(readFileSync(join(FOLDER, "pglite.wasm")));
  await held;
}
