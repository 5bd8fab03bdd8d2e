/**
 * The takes of the demo class with their accounts, for all tests that ask for them. An account is made once for a state
 * of the sources and kept in `dist/accounts`, under a hash of all that could change it.
 */
import { createHash } from "node:crypto";
import { mkdirSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import type { Manifest, ManifestTake } from "../corpus/corpus-files.ts";
import type { AnalyseOptionsInput, Analysis } from "../src/account.ts";
import { analyse } from "../src/analyse.ts";
import { chartText, formChart } from "../src/chart/index.ts";

const ROOT = fileURLToPath(new URL("..", import.meta.url));
const CORPUS = join(ROOT, "corpus");
const KEPT = join(ROOT, "dist/accounts");

export const demoClass = JSON.parse(readFileSync(join(CORPUS, "manifest.json"), "utf8")) as Manifest;

export function demoBytes(take: ManifestTake): Uint8Array {
  return new Uint8Array(readFileSync(join(CORPUS, take.file)));
}

/** Text of the chart that a take was played on. */
export function demoChart(take: ManifestTake): string {
  const { form, key, file } = demoClass.charts.find(({ id }) => id === take.chart)!;
  return form === null ? readFileSync(join(CORPUS, file!), "utf8") : chartText(formChart(form, key));
}

/** The account as the demo store has it: with the shapes that the player uses, unless other options are given. */
export function demoAccount(take: ManifestTake, more: AnalyseOptionsInput = {}): Analysis {
  const options = { name: take.file, shapes: [...take.shapes], ...more };
  const chart = demoChart(take);
  const bytes = demoBytes(take);
  const key = createHash("sha256")
    .update(bytes)
    .update(JSON.stringify([chart, options]))
    .digest("hex");
  const folder = join(KEPT, sources());
  const file = join(folder, `${key.slice(0, 16)}.json`);
  try {
    return JSON.parse(readFileSync(file, "utf8")) as Analysis;
  } catch {
    const account = analyse(bytes, chart, options);
    mkdirSync(folder, { recursive: true });
    const half = `${file}.${process.pid}`;
    writeFileSync(half, JSON.stringify(account));
    renameSync(half, file);
    return account;
  }
}

let hash: string | null = null;

/** A hash of the analysis and of the packages that it uses; accounts of other states are cleared away. */
function sources(): string {
  if (hash !== null) return hash;
  const sum = createHash("sha256").update(readFileSync(join(ROOT, "package-lock.json")));
  for (const path of readdirSync(join(ROOT, "src"), { recursive: true, encoding: "utf8" }).sort()) {
    if (path.endsWith(".ts")) sum.update(path).update(readFileSync(join(ROOT, "src", path)));
  }
  hash = sum.digest("hex").slice(0, 16);
  mkdirSync(KEPT, { recursive: true });
  for (const state of readdirSync(KEPT)) {
    if (state !== hash) rmSync(join(KEPT, state), { recursive: true, force: true });
  }
  return hash;
}
