/** Files that arrive together, loose or in zips, with a manifest that says what they are. Nothing is written to disk. */
import { unzipSync } from "fflate";
import { Problem } from "../../src/take/index.ts";
import type { UploadedFile } from "../route.ts";
import { type ManifestEntry, readManifest } from "./manifest.ts";

/** What the zips of an upload may unfold to, in bytes, all of them and a single file. */
const ZIP_LIMIT = 128 * 2 ** 20;
const ENTRY_LIMIT = 64 * 2 ** 20;
/** Most files of all zips of an upload; more are sent in parts. */
const MOST_FILES = 20_000;

export interface Bundle {
  readonly files: ReadonlyMap<string, Uint8Array>;
  /** Names of the files by their last part. */
  readonly named: ReadonlyMap<string, readonly string[]>;
  /** Null when no manifest came along. */
  readonly entries: readonly ManifestEntry[] | null;
}

/** Throws a `Problem` for a zip that cannot be opened or unfolds beyond the limits, or a manifest with a mistake. */
export function openBundle(uploads: readonly UploadedFile[], manifestText: string | undefined): Bundle {
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
  if (manifestText !== undefined && manifestText.trim() !== "") {
    return { files, named: namesOf(files), entries: readManifest("manifest", manifestText) };
  }
  const name = [...files.keys()].find((file) => /(^|\/)manifest\.(json|csv)$/i.test(file));
  if (name === undefined) return { files, named: namesOf(files), entries: null };
  const entries = readManifest(name, new TextDecoder().decode(files.get(name)));
  files.delete(name);
  return { files, named: namesOf(files), entries };
}

/** A file by the name the manifest gives it: as it stands, or by its last part when that is unambiguous. */
export function fileNamed({ files, named }: Bundle, name: string): Uint8Array | null {
  const exact = files.get(name) ?? files.get(`./${name}`);
  if (exact !== undefined) return exact;
  const ending = `/${name.replace(/^\.\//, "")}`;
  const found = (named.get(lastPart(name)) ?? []).filter((file) => `/${file}`.endsWith(ending));
  return found.length === 1 ? files.get(found[0]!)! : null;
}

/** A name without the folders that it came in, whichever way these are written. */
export function lastPart(name: string): string {
  return name.split(/[\\/]/).at(-1)!;
}

function namesOf(files: ReadonlyMap<string, Uint8Array>): Bundle["named"] {
  const named = new Map<string, string[]>();
  for (const file of files.keys()) {
    const last = lastPart(file);
    const list = named.get(last);
    if (list === undefined) named.set(last, [file]);
    else list.push(file);
  }
  return named;
}

/** A zip of takes; compressed MusicXML is a zip too, and is left as it is. */
function isZip({ name, bytes }: UploadedFile): boolean {
  return /\.zip$/i.test(name) && bytes[0] === 0x50 && bytes[1] === 0x4b;
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
        if (file.name.endsWith("/") || /(^|\/)(__MACOSX|\.)/.test(file.name)) return false;
        if (file.originalSize > ENTRY_LIMIT) throw tooLarge(file.name);
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
