/**
 * Makes one file of a program, for `run.js`: in a process of its own, so that neither the bundler nor what reads
 * TypeScript stays in the program. `node --import tsx server/bundle-program.ts NAME FILE`.
 */
import { mkdirSync, renameSync, utimesSync, writeFileSync } from "node:fs";
import { dirname } from "node:path";
import { build } from "esbuild";
import { programOptions } from "./bundle.ts";

const [name, file] = process.argv.slice(2) as [string, string];
const began = new Date();
const { outputFiles } = await build({ ...programOptions([name]), write: false });
mkdirSync(dirname(file), { recursive: true });
const half = `${file}.${process.pid}`;
writeFileSync(half, outputFiles[0]!.contents);
// As old as the sources that it was made from: one that is saved meanwhile is younger.
utimesSync(half, began, began);
// Others that start at the same moment see none or all of it.
renameSync(half, file);
