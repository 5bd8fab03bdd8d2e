/** Files that arrive together, loose or in zips, with a manifest that says what they are. Nothing is written to disk. */
import { unzipSync } from "fflate";
import { Problem } from "../../src/take/index.ts";
import type { UploadedFile } from "../route.ts";
import { type ManifestEntry, readManifest } from "./manifest.ts";

/** What a zip may unfold to, in bytes, all of it and a single file. */
const ZIP_LIMIT = 2 ** 30;
const ENTRY_LIMIT = 64 * 2 ** 20;

export interface Bundle {
  readonly files: ReadonlyMap<string, Uint8Array>;
  /** Null when no manifest came along. */
  readonly entries: readonly ManifestEntry[] | null;
}

/** Throws a `Problem` for a zip that cannot be opened or unfolds beyond the limits, or a manifest with a mistake. */
export function openBundle(uploads: readonly UploadedFile[], manifestText: string | undefined): Bundle {
  const files = new Map<string, Uint8Array>();
  for (const upload of uploads) {
    if (isZip(upload)) for (const [name, bytes] of unfold(upload)) files.set(name, bytes);
    else files.set(upload.name, upload.bytes);
  }
  if (manifestText !== undefined && manifestText.trim() !== "") {
    return { files, entries: readManifest("manifest", manifestText) };
  }
  const name = [...files.keys()].find((file) => /(^|\/)manifest\.(json|csv)$/i.test(file));
  if (name === undefined) return { files, entries: null };
  const entries = readManifest(name, new TextDecoder().decode(files.get(name)));
  files.delete(name);
  return { files, entries };
}

/** A file by the name the manifest gives it: as it stands, or by its last part when that is unambiguous. */
export function fileNamed(files: ReadonlyMap<string, Uint8Array>, name: string): Uint8Array | null {
  const exact = files.get(name) ?? files.get(`./${name}`);
  if (exact !== undefined) return exact;
  const ending = `/${name.replace(/^\.\//, "")}`;
  const found = [...files].filter(([file]) => `/${file}`.endsWith(ending));
  return found.length === 1 ? found[0]![1] : null;
}

/** A zip of takes; compressed MusicXML is a zip too, and is left as it is. */
function isZip({ name, bytes }: UploadedFile): boolean {
  return /\.zip$/i.test(name) && bytes[0] === 0x50 && bytes[1] === 0x4b;
}

function unfold(upload: UploadedFile): [string, Uint8Array][] {
  let whole = 0;
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
        whole += file.originalSize;
        if (whole > ZIP_LIMIT) throw tooLarge("The zip");
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
