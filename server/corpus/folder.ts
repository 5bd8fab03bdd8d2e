/** Takes that lie in a folder of the server, which was allowed when the service started; read one after the other. */
import type { Dirent } from "node:fs";
import { readdir, realpath, stat } from "node:fs/promises";
import { join, relative, sep } from "node:path";
import { Problem } from "../../src/take/index.ts";
import { type Bundle, bundleOf, FILE_MOST, isManifest } from "./bundle.ts";
import { type FilePart, filePart } from "./file-part.ts";
import { readManifest } from "./manifest.ts";

const READ = /\.(mid|midi|kar|xml|musicxml|mxl|json|csv|txt)$/i;

/**
 * Every file below `folder`, which must lie in `root`. Links to folders are not followed, and links to files only
 * where they stay in `root`.
 *
 * @throws Problem "folder-not-allowed", "no-such-folder", and what a bad manifest ends with
 */
export async function openFolder(
  root: string,
  folder: string,
  manifestText: string | undefined,
): Promise<Bundle> {
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
  const names: string[] = [];
  for await (const name of filesBelow(place, "")) {
    if (READ.test(name) && (await placeOf(base, join(place, name))) !== null) names.push(name);
  }
  const read = (name: string) => open(base, join(place, name), name);
  if (manifestText !== undefined && manifestText.trim() !== "") {
    return bundleOf(names.sort(), read, readManifest("manifest", manifestText));
  }
  const manifest = names.sort().find(isManifest);
  if (manifest === undefined) return bundleOf(names, read, null);
  const text = new TextDecoder().decode((await (await read(manifest))?.read()) ?? new Uint8Array());
  const others = names.filter((name) => name !== manifest);
  return bundleOf(others, read, readManifest(manifest, text));
}

async function* filesBelow(place: string, below: string): AsyncGenerator<string> {
  const entries: Dirent[] = await readdir(join(place, below), { withFileTypes: true });
  for (const entry of entries) {
    const name = below === "" ? entry.name : `${below}/${entry.name}`;
    if (entry.isDirectory()) yield* filesBelow(place, name);
    else if (entry.isFile() || entry.isSymbolicLink()) yield name;
  }
}

/** Asked again when the file is opened: a link may have been changed meanwhile. */
async function placeOf(base: string, path: string): Promise<string | null> {
  const real = await realpath(path).catch(() => null);
  return real !== null && inside(base, real) && (await stat(real)).isFile() ? real : null;
}

async function open(base: string, path: string, name: string): Promise<FilePart | null> {
  const real = await placeOf(base, path);
  if (real === null) return null;
  const { size } = await stat(real);
  if (size > FILE_MOST) {
    throw new Problem("file-too-large", "The file is larger than this service takes", name, "Send one solo.");
  }
  return filePart(real, 0, size);
}

function inside(base: string, path: string): boolean {
  const way = relative(base, path);
  return way === "" || !(way === ".." || way.startsWith(`..${sep}`));
}
