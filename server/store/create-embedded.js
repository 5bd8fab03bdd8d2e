/**
 * Creates an embedded store in a folder and ends. A process of its own, because making the first tables of a store
 * takes several times the memory of working with it, and this memory is not given back.
 *
 * Begins from the dump that `--from FILE` names; with `--keep FILE` such a dump is written.
 */
import { mkdirSync, readFileSync, renameSync, writeFileSync } from "node:fs";
import { dirname } from "node:path";
import { PGlite } from "@electric-sql/pglite";

const [folder, option, file] = process.argv.slice(2);
const store = new PGlite(folder, option === "--from" ? { loadDataDir: new Blob([readFileSync(file)]) } : {});
await store.waitReady;
if (option === "--keep") {
  const bytes = new Uint8Array(await (await store.dumpDataDir("none")).arrayBuffer());
  mkdirSync(dirname(file), { recursive: true });
  // Whoever looks meanwhile sees none or all of it.
  writeFileSync(`${file}.${process.pid}`, bytes);
  renameSync(`${file}.${process.pid}`, file);
}
await store.close();
