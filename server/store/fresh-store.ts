/**
 * A store as it is when it has just been created, kept beside the packages where somebody has made it: to make the
 * first tables takes seconds, to read them a tenth of that.
 */
import { existsSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { fileURLToPath } from "node:url";

/** Path of the file; another version of the store has another one. */
export const FRESH_STORE = fileURLToPath(
  new URL(`../../node_modules/.cache/ledgerline/store-${storeVersion()}.tar`, import.meta.url),
);

function storeVersion(): string {
  const main = createRequire(import.meta.url).resolve("@electric-sql/pglite");
  const folder = main.slice(0, main.lastIndexOf("pglite"));
  const { version } = JSON.parse(readFileSync(`${folder}pglite/package.json`, "utf8")) as { version: string };
  return version;
}

/** Path of the file, null where nobody has made it. */
export function freshStore(): string | null {
  return existsSync(FRESH_STORE) ? FRESH_STORE : null;
}
