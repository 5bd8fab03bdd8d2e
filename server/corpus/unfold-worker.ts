/**
 * Opens what was sent for a corpus, in a thread of its own: zips are unfolded into one file beside them, an entry at a
 * time, and the manifest is read.
 */
import { closeSync, openSync, readFileSync, readSync, writeSync } from "node:fs";
import { join } from "node:path";
import { Problem } from "../../src/take/index.ts";
import { type SerialisedProblem, serialiseProblem } from "../serialise-problem.ts";
import { FILE_MOST, isManifest, lastPart, type SentFile } from "./bundle.ts";
import { type ManifestEntry, readManifest } from "./manifest.ts";
import { listParts, readPart, type ZipPart } from "./zip-file.ts";

export interface UnfoldTask {
  readonly files: readonly SentFile[];
  /** The manifest, when it did not come as a file. */
  readonly manifest: string | undefined;
  /** Folder for what zips unfold to. */
  readonly folder: string;
}

/** A file, or a part of one. */
export interface FilePart {
  readonly name: string;
  readonly path: string;
  /** Its first byte in the file, and how many there are. */
  readonly at: number;
  readonly size: number;
}

export type UnfoldResult =
  | {
      readonly ok: true;
      /** Without the manifest. */
      readonly files: readonly FilePart[];
      readonly entries: readonly ManifestEntry[] | null;
    }
  | { readonly ok: false; readonly problem: SerialisedProblem };

/** What the zips of an upload may unfold to, in bytes, all of them together. */
const ZIP_LIMIT = 128 * 2 ** 20;
/** Most files of all zips of an upload; more are sent in parts. */
const MOST_FILES = 20_000;

export default async function run({ files, manifest, folder }: UnfoldTask): Promise<UnfoldResult> {
  try {
    return { ok: true, ...opened(await allFiles(files, folder), manifest) };
  } catch (error) {
    if (!(error instanceof Problem)) throw error;
    return { ok: false, problem: serialiseProblem(error) };
  }
}

/** Of two files of one name the later one counts. */
async function allFiles(files: readonly SentFile[], folder: string): Promise<FilePart[]> {
  const parts = new Map<string, FilePart>();
  const unfolded = { bytes: 0, file: join(folder, "unfolded") };
  for (const file of files) {
    if (!isZip(file)) parts.set(file.name, { ...file, at: 0 });
    else for await (const part of unfold(file, unfolded)) parts.set(part.name, part);
    if (parts.size > MOST_FILES) throw tooMany(file.name);
  }
  return [...parts.values()];
}

function opened(files: FilePart[], sent: string | undefined): Omit<UnfoldResult & { ok: true }, "ok"> {
  if (sent !== undefined && sent.trim() !== "") return { files, entries: readManifest("manifest", sent) };
  const manifest = files.find(({ name }) => isManifest(name));
  if (manifest === undefined) return { files, entries: null };
  const text = readFileSync(manifest.path).subarray(manifest.at, manifest.at + manifest.size);
  return {
    files: files.filter((file) => file !== manifest),
    entries: readManifest(manifest.name, new TextDecoder().decode(text)),
  };
}

/** A zip of takes; compressed MusicXML is a zip too, and is left as it is. */
function isZip({ name, path }: SentFile): boolean {
  if (!/\.zip$/i.test(name)) return false;
  const head = Buffer.alloc(2);
  const file = openSync(path, "r");
  readSync(file, head);
  closeSync(file);
  return head.toString("latin1") === "PK";
}

/** What systems put beside the files of a zip. */
function isOfSystem(name: string): boolean {
  return /(^|\/)__MACOSX\//.test(name) || lastPart(name).startsWith(".");
}

/** The files of a zip, each written behind the others into one file. Of two of one name both come. */
async function* unfold(
  zip: SentFile,
  unfolded: { bytes: number; readonly file: string },
): AsyncGenerator<FilePart> {
  const packed = openSync(zip.path, "r");
  const file = openSync(unfolded.file, "a");
  try {
    for (const part of partsOf(packed, zip.name, unfolded.bytes)) {
      const at = unfolded.bytes;
      for await (const piece of readPart(packed, part)) {
        for (let done = 0; done < piece.length; ) done += writeSync(file, piece, done);
        unfolded.bytes += piece.length;
      }
      yield { name: part.name, path: unfolded.file, at, size: unfolded.bytes - at };
    }
  } catch (error) {
    if (error instanceof Problem || (error as { syscall?: string }).syscall !== undefined) throw error;
    throw new Problem(
      "bad-zip",
      `The zip cannot be opened: ${(error as Error).message}`,
      zip.name,
      "Make the zip again and send it.",
    );
  } finally {
    closeSync(packed);
    closeSync(file);
  }
}

/** The entries of a zip that are files. @param before bytes that other zips of the upload unfolded to */
function partsOf(file: number, zip: string, before: number): ZipPart[] {
  const parts = listParts(file).filter(({ name }) => !name.endsWith("/") && !isOfSystem(name));
  if (parts.length > MOST_FILES) throw tooMany(zip);
  let all = before;
  for (const { name, size } of parts) {
    all += size;
    if (size > FILE_MOST) throw tooLarge(name, zip);
    if (all > ZIP_LIMIT) throw tooLarge("The zip", zip);
  }
  return parts;
}

function tooMany(file: string): Problem {
  return new Problem(
    "too-many-files",
    `There are more than ${MOST_FILES} files in the upload`,
    file,
    "Send them in parts.",
  );
}

function tooLarge(what: string, zip: string): Problem {
  return new Problem(
    "zip-too-large",
    `${what} unfolds to more than this service takes`,
    zip,
    "Send it in parts.",
  );
}
