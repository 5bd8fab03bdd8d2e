/** Whether sources are still what something was made of. */
import { createHash } from "node:crypto";
import { readdirSync, statSync } from "node:fs";
import { join } from "node:path";

/**
 * Tells files as they stand, by their names, sizes and times: to read them all takes longer than to look.
 *
 * @param paths of files, and of folders with all that is below them
 * @returns sixteen hexadecimal digits
 */
export function stateOf(paths: readonly string[]): string {
  const sum = createHash("sha256");
  const add = (path: string): boolean => {
    const found = statSync(path, { throwIfNoEntry: false });
    sum.update(`${path} ${found?.isFile() ? `${found.size} ${found.mtimeMs}` : ""}\n`);
    return found?.isDirectory() ?? false;
  };
  for (const path of paths) {
    if (!add(path)) continue;
    for (const name of readdirSync(path, { recursive: true, encoding: "utf8" }).sort()) add(join(path, name));
  }
  return sum.digest("hex").slice(0, 16);
}
