/** From files and a manifest to the items of a job. A bad entry becomes a failed item; the others go on. */
import { readdir, readFile, realpath, stat } from "node:fs/promises";
import { join, relative, sep } from "node:path";
import type { AnalyseOptionsInput } from "../../src/account.ts";
import { chartText, formChart, parseChart } from "../../src/chart/index.ts";
import { Problem } from "../../src/take/index.ts";
import { sha256 } from "../analysis/analyst.ts";
import type { UploadedFile } from "../route.ts";
import { checkOptions } from "../routes/fields.ts";
import type { ItemProblem, NewItem } from "../store/corpora.ts";
import { type Bundle, fileNamed, lastPart } from "./bundle.ts";
import type { ManifestEntry } from "./manifest.ts";

/** What an upload says of all its files; a manifest's entries have the last word. */
export interface Common {
  readonly chartText: string | null;
  readonly player: string | null;
  readonly tags: readonly string[];
  readonly options: AnalyseOptionsInput;
}

export function itemsOf(bundle: Bundle, common: Common): NewItem[] {
  const entries = bundle.entries ?? [...bundle.files.keys()].map(bareEntry);
  // Many takes of a corpus are over the same few charts.
  const read = new Set<string>();
  return entries.map((entry) => itemOf(entry, bundle, common, read));
}

/**
 * Every file below `folder` (which must lie in `root`, the folder that was allowed when the service started). Links
 * that lead out of `root` are not followed.
 *
 * @throws Problem "folder-not-allowed", "no-such-folder"
 */
export async function filesInFolder(root: string, folder: string): Promise<UploadedFile[]> {
  const base = await realpath(root);
  const place = await realpath(join(base, folder)).catch(() => {
    throw new Problem("no-such-folder", `There is no folder "${folder}"`, "folder", "Check its name.");
  });
  if (!inside(base, place)) {
    throw new Problem(
      "folder-not-allowed",
      `The folder "${folder}" is outside of what this service may read`,
      "folder",
      "Name a folder below the one that was allowed at the start.",
    );
  }
  const files: UploadedFile[] = [];
  for (const entry of await readdir(place, { recursive: true })) {
    const path = await realpath(join(place, entry)).catch(() => null);
    if (path === null || !inside(base, path) || !(await stat(path)).isFile()) continue;
    if (!/\.(mid|midi|kar|xml|musicxml|mxl|json|csv|txt)$/i.test(entry)) continue;
    files.push({ name: entry.split(sep).join("/"), bytes: new Uint8Array(await readFile(path)) });
  }
  return files;
}

function inside(base: string, path: string): boolean {
  const way = relative(base, path);
  return way === "" || !(way === ".." || way.startsWith(`..${sep}`));
}

function bareEntry(file: string): ManifestEntry {
  return { file, chart: null, form: null, key: null, player: null, title: null, date: null, tags: [] };
}

function itemOf(entry: ManifestEntry, bundle: Bundle, common: Common, read: Set<string>): NewItem {
  const bytes = fileNamed(bundle, entry.file);
  const fileName = lastPart(entry.file);
  const facts = {
    fileName,
    title: entry.title ?? fileName.replace(/\.[^.]+$/, ""),
    player: entry.player ?? common.player,
    date: entry.date,
    tags: [...new Set([...common.tags, ...entry.tags])],
    source: bytes === null ? null : { sha256: sha256(bytes), bytes },
  };
  try {
    if (bytes === null) {
      throw new Problem(
        "file-missing",
        `The manifest names "${entry.file}", but no such file was sent`,
        entry.file,
        "Send the file, or correct its name in the manifest.",
      );
    }
    return {
      ...facts,
      chartText: chartOf(entry, bundle, read) ?? common.chartText,
      options: { ...common.options, ...(entry.options ? checkOptions(entry.options) : {}) },
      problem: null,
    };
  } catch (error) {
    if (!(error instanceof Problem)) throw error;
    return { ...facts, chartText: entry.chart, options: {}, problem: problemOf(error) };
  }
}

/** A chart named in a manifest is chart text, or the name of a text file that was sent along. */
function chartOf(entry: ManifestEntry, bundle: Bundle, read: Set<string>): string | null {
  if (entry.chart !== null) {
    const file = entry.chart.includes("|") ? null : fileNamed(bundle, entry.chart);
    const text = file === null ? entry.chart : new TextDecoder().decode(file);
    if (!read.has(text)) parseChart(text);
    read.add(text);
    return text;
  }
  if (entry.form === null) return null;
  if (entry.key === null) {
    throw new Problem("key-missing", `"${entry.file}" names a form but no key`, entry.file, "Add the key.");
  }
  return chartText(formChart(entry.form, entry.key));
}

function problemOf({ code, message, where, todo }: Problem): ItemProblem {
  return { code, message, where, todo };
}
