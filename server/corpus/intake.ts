/** From files and a manifest to the items of a job. A bad entry becomes a failed item; the others go on. */
import { createHash } from "node:crypto";
import type { AnalyseOptionsInput } from "../../src/account.ts";
import { chartText, formChart, parseChart } from "../../src/chart/index.ts";
import { Problem } from "../../src/take/index.ts";
import { checkOptions } from "../routes/fields.ts";
import { serialiseProblem } from "../serialise-problem.ts";
import type { NewItem } from "../store/jobs.ts";
import { PIECE } from "../store/sources.ts";
import { type Bundle, fileNamed, lastPart } from "./bundle.ts";
import type { FilePart } from "./file-part.ts";
import type { ManifestEntry } from "./manifest.ts";

/** What an upload says of all its files; a manifest's entries have the last word. */
export interface Common {
  readonly chartText: string | null;
  readonly player: string | null;
  readonly tags: readonly string[];
  readonly options: AnalyseOptionsInput;
}

/** Items made at once, and the bytes of their files; no more of a bundle than these is in memory. */
const AT_ONCE = { items: 200, bytes: 8 * 2 ** 20 };

export function countItems(bundle: Bundle): number {
  return bundle.entries?.length ?? bundle.names.length;
}

export async function* itemsOf(bundle: Bundle, common: Common): AsyncGenerator<NewItem[]> {
  const entries = bundle.entries ?? bundle.names.map(bareEntry);
  // Many takes of a corpus are over the same few charts.
  const read = new Set<string>();
  let items: NewItem[] = [];
  let bytes = 0;
  for (const entry of entries) {
    const item = await itemOf(entry, bundle, common, read);
    items.push(item);
    bytes += item.source?.content instanceof Uint8Array ? item.source.content.length : 0;
    if (items.length < AT_ONCE.items && bytes < AT_ONCE.bytes) continue;
    yield items;
    items = [];
    bytes = 0;
  }
  if (items.length > 0) yield items;
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
    const file = await fileNamed(bundle, entry.file);
    if (file !== null) source = await sourceOf(file);
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

/** A small one in memory with its hash, which is worked out beside this thread; of a large one a piece at a time. */
async function sourceOf(file: FilePart): Promise<NonNullable<NewItem["source"]>> {
  if (file.size <= PIECE) {
    const content = await file.read();
    const hash = await crypto.subtle.digest("SHA-256", content as Uint8Array<ArrayBuffer>);
    return { sha256: Buffer.from(hash).toString("hex"), content };
  }
  const hash = createHash("sha256");
  for await (const piece of file.pieces()) hash.update(piece);
  return { sha256: hash.digest("hex"), content: file };
}

/** A chart named in a manifest is chart text, or the name of a text file that was sent along. */
async function chartOf(entry: ManifestEntry, bundle: Bundle, read: Set<string>): Promise<string | null> {
  if (entry.chart !== null) {
    const file = entry.chart.includes("|") ? null : await fileNamed(bundle, entry.chart);
    const text = file === null ? entry.chart : new TextDecoder().decode(await file.read());
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
