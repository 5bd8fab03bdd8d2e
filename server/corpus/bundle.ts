/** Files that arrive together, loose or in zips or in a folder, with a manifest that says what they are. */
import type { FilePart } from "./file-part.ts";
import type { ManifestEntry } from "./manifest.ts";

/** Largest file of a bundle, in bytes. */
export const FILE_MOST = 64 * 2 ** 20;

/** A file of an upload that may be large, where it lies while the request is answered. */
export interface SentFile {
  readonly name: string;
  readonly path: string;
  /** In bytes. */
  readonly size: number;
}

/** Files that belong together, opened one at a time. */
export interface Bundle {
  /** Names without the manifest's. */
  readonly names: readonly string[];
  /** The same by their last part. */
  readonly named: ReadonlyMap<string, readonly string[]>;
  /** Null when no manifest came along. */
  readonly entries: readonly ManifestEntry[] | null;
  /** Null when there is no such file any more. */
  readonly open: (name: string) => Promise<FilePart | null>;
}

/** @param entries what a manifest says, or null when none came along */
export function bundleOf(
  names: readonly string[],
  open: Bundle["open"],
  entries: readonly ManifestEntry[] | null,
): Bundle {
  return { names, named: byLastPart(names), open, entries };
}

/** Whether a file of this name says what the others are. */
export function isManifest(name: string): boolean {
  return /(^|\/)manifest\.(json|csv)$/i.test(name);
}

/** A file by the name the manifest gives it: as it stands, or by its last part when that is unambiguous. */
export async function fileNamed({ named, open }: Bundle, name: string): Promise<FilePart | null> {
  const plain = name.replace(/^\.\//, "");
  const alike = named.get(lastPart(name)) ?? [];
  const exact = alike.find((file) => file === name) ?? alike.find((file) => file === `./${plain}`);
  const ending = alike.filter((file) => `/${file}`.endsWith(`/${plain}`));
  const found = exact ?? (ending.length === 1 ? ending[0] : undefined);
  return found === undefined ? null : open(found);
}

/** A name without the folders that it came in, whichever way these are written. */
export function lastPart(name: string): string {
  return name.split(/[\\/]/).at(-1)!;
}

function byLastPart(names: readonly string[]): Bundle["named"] {
  const named = new Map<string, string[]>();
  for (const name of names) {
    const last = lastPart(name);
    const list = named.get(last);
    if (list === undefined) named.set(last, [name]);
    else list.push(name);
  }
  return named;
}
