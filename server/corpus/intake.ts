/** From files and a manifest to the items of a job. A bad entry becomes a failed item; the others go on. */
import type { AnalyseOptionsInput } from "../../src/account.ts";
import { chartText, formChart, parseChart } from "../../src/chart/index.ts";
import { Problem } from "../../src/take/index.ts";
import { sha256 } from "../analysis/analyst.ts";
import { checkOptions } from "../routes/fields.ts";
import { serialiseProblem } from "../serialise-problem.ts";
import type { NewItem } from "../store/jobs.ts";
import { type Bundle, fileNamed, lastPart } from "./bundle.ts";
import type { ManifestEntry } from "./manifest.ts";

/** What an upload says of all its files; a manifest's entries have the last word. */
export interface Common {
  readonly chartText: string | null;
  readonly player: string | null;
  readonly tags: readonly string[];
  readonly options: AnalyseOptionsInput;
}

/** Items made at once; of a folder no more files than these are in memory. */
const AT_ONCE = 200;

export function countItems(bundle: Bundle): number {
  return bundle.entries?.length ?? bundle.names.length;
}

export async function* itemsOf(bundle: Bundle, common: Common): AsyncGenerator<NewItem[]> {
  const entries = bundle.entries ?? bundle.names.map(bareEntry);
  // Many takes of a corpus are over the same few charts.
  const read = new Set<string>();
  for (let first = 0; first < entries.length; first += AT_ONCE) {
    const items: NewItem[] = [];
    for (const entry of entries.slice(first, first + AT_ONCE)) {
      items.push(await itemOf(entry, bundle, common, read));
    }
    yield items;
  }
}

function bareEntry(file: string): ManifestEntry {
  return { file, chart: null, form: null, key: null, player: null, title: null, date: null, tags: [] };
}

async function itemOf(
  entry: ManifestEntry,
  bundle: Bundle,
  common: Common,
  read: Set<string>,
): Promise<NewItem> {
  const fileName = lastPart(entry.file);
  const facts = {
    fileName,
    title: entry.title ?? fileName.replace(/\.[^.]+$/, ""),
    player: entry.player ?? common.player,
    date: entry.date,
    tags: [...new Set([...common.tags, ...entry.tags])],
  };
  let source: NewItem["source"] = null;
  try {
    const bytes = await fileNamed(bundle, entry.file);
    if (bytes !== null) source = { sha256: sha256(bytes), bytes };
    else {
      throw new Problem(
        "file-missing",
        `The manifest names "${entry.file}", but no such file was sent`,
        entry.file,
        "Send the file, or correct its name in the manifest.",
      );
    }
    return {
      ...facts,
      source,
      chartText: (await chartOf(entry, bundle, read)) ?? common.chartText,
      options: { ...common.options, ...(entry.options ? checkOptions(entry.options) : {}) },
      problem: null,
    };
  } catch (error) {
    if (!(error instanceof Problem)) throw error;
    return { ...facts, source, chartText: entry.chart, options: {}, problem: serialiseProblem(error) };
  }
}

/** A chart named in a manifest is chart text, or the name of a text file that was sent along. */
async function chartOf(entry: ManifestEntry, bundle: Bundle, read: Set<string>): Promise<string | null> {
  if (entry.chart !== null) {
    const file = entry.chart.includes("|") ? null : await fileNamed(bundle, entry.chart);
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
