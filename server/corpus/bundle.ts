/** Files that arrive together, loose or in zips, with a manifest that says what they are. Nothing is written to disk. */
import { unzipSync } from "fflate";
import { Problem } from "../../src/take/index.ts";
import type { UploadedFile } from "../route.ts";
import { type ManifestEntry, readManifest } from "./manifest.ts";

/** What the zips of an upload may unfold to, in bytes, all of them and a single file. */
const ZIP_LIMIT = 128 * 2 ** 20;
export const FILE_MOST = 64 * 2 ** 20;
/** Most files of all zips of an upload; more are sent in parts. */
const MOST_FILES = 20_000;

/** Files that belong together, opened one at a time. */
export interface Bundle {
  /** Names without the manifest's. */
  readonly names: readonly string[];
  /** The same by their last part. */
  readonly named: ReadonlyMap<string, readonly string[]>;
  /** Null when no manifest came along. */
  readonly entries: readonly ManifestEntry[] | null;
  /** Null when there is no such file any more. */
  readonly open: (name: string) => Promise<Uint8Array | null>;
}

/** Throws a `Problem` for a zip that cannot be opened or unfolds beyond the limits, or a manifest with a mistake. */
export function openUploads(
  uploads: readonly UploadedFile[],
  manifestText: string | undefined,
): Promise<Bundle> {
  const files = new Map<string, Uint8Array>();
  const unfolded = { bytes: 0 };
  for (const upload of uploads) {
    if (isZip(upload)) for (const [name, bytes] of unfold(upload, unfolded)) files.set(name, bytes);
    else files.set(upload.name, upload.bytes);
    if (files.size > MOST_FILES) {
      throw new Problem(
        "too-many-files",
        `There are more than ${MOST_FILES} files in the upload`,
        upload.name,
        "Send them in parts.",
      );
    }
  }
  return bundleOf([...files.keys()], async (name) => files.get(name) ?? null, manifestText);
}

/** @param manifestText the manifest, when it did not come as a file */
export async function bundleOf(
  names: readonly string[],
  open: Bundle["open"],
  manifestText: string | undefined,
): Promise<Bundle> {
  if (manifestText !== undefined && manifestText.trim() !== "") {
    return { names, named: byLastPart(names), open, entries: readManifest("manifest", manifestText) };
  }
  const manifest = names.find((file) => /(^|\/)manifest\.(json|csv)$/i.test(file));
  if (manifest === undefined) return { names, named: byLastPart(names), open, entries: null };
  const entries = readManifest(
    manifest,
    new TextDecoder().decode((await open(manifest)) ?? new Uint8Array()),
  );
  const others = names.filter((name) => name !== manifest);
  return { names: others, named: byLastPart(others), open, entries };
}

/** A file by the name the manifest gives it: as it stands, or by its last part when that is unambiguous. */
export async function fileNamed({ named, open }: Bundle, name: string): Promise<Uint8Array | null> {
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

/** A zip of takes; compressed MusicXML is a zip too, and is left as it is. */
function isZip({ name, bytes }: UploadedFile): boolean {
  return /\.zip$/i.test(name) && bytes[0] === 0x50 && bytes[1] === 0x4b;
}

/** What systems put beside the files of a zip. */
function isOfSystem(name: string): boolean {
  return /(^|\/)__MACOSX\//.test(name) || lastPart(name).startsWith(".");
}

function unfold(upload: UploadedFile, unfolded: { bytes: number }): [string, Uint8Array][] {
  const tooLarge = (what: string) =>
    new Problem(
      "zip-too-large",
      `${what} unfolds to more than this service takes`,
      upload.name,
      "Send it in parts.",
    );
  try {
    const entries = unzipSync(upload.bytes, {
      filter: (file) => {
        if (file.name.endsWith("/") || isOfSystem(file.name)) return false;
        if (file.originalSize > FILE_MOST) throw tooLarge(file.name);
        unfolded.bytes += file.originalSize;
        if (unfolded.bytes > ZIP_LIMIT) throw tooLarge("The zip");
        return true;
      },
    });
    return Object.entries(entries);
  } catch (error) {
    if (error instanceof Problem) throw error;
    throw new Problem(
      "bad-zip",
      `The zip cannot be opened: ${(error as Error).message}`,
      upload.name,
      "Make the zip again and send it.",
    );
  }
}
