/** How long a file and a function may be. What was longer when the law was made is listed, and may only shrink. */
import type { Breach } from "./breach.ts";
import type { SourceFile } from "./tree.ts";

/** A page of the screen and a half: more cannot be read without scrolling back. [practice] */
export const MOST_FUNCTION_LINES = 80;

/** Five minutes' reading, and one subject. [practice] */
export const MOST_FILE_LINES = 300;

/** By path, or by "path#function": the lines that it has. */
export type Allowances = Readonly<Record<string, number>>;

/** Everything that is longer than the law allows, by the key it has in the list. */
function tooLong(files: readonly SourceFile[]): Map<string, { lines: number; where: string; most: number }> {
  const found = new Map<string, { lines: number; where: string; most: number }>();
  for (const file of files) {
    if (file.lines > MOST_FILE_LINES && !isTable(file.path)) {
      found.set(file.path, { lines: file.lines, where: file.path, most: MOST_FILE_LINES });
    }
    for (const { name, line, lines } of file.functions) {
      if (lines <= MOST_FUNCTION_LINES || isTestBody(file.path, name)) continue;
      const key = `${file.path}#${name}`;
      if ((found.get(key)?.lines ?? 0) < lines) {
        found.set(key, { lines, where: `${file.path}:${line}`, most: MOST_FUNCTION_LINES });
      }
    }
  }
  return found;
}

/** A test may be a table of published examples, which is read line by line and not as a whole. */
function isTable(path: string): boolean {
  return path.startsWith("tests/");
}

/** `describe` holds tests as a chapter holds sections: its length says nothing. */
function isTestBody(path: string, name: string): boolean {
  return path.startsWith("tests/") && name === "(callback)";
}

/** What is too long and not listed, has grown beyond its listing, or is listed without need. */
export function lengthBreaches(files: readonly SourceFile[], allowances: Allowances): Breach[] {
  const found = tooLong(files);
  const breaches: Breach[] = [];
  for (const [key, { lines, where, most }] of found) {
    const allowed = allowances[key] ?? most;
    if (lines <= allowed) continue;
    const name = key.includes("#") ? `${key.split("#")[1]} has ${lines} lines` : `has ${lines} lines`;
    const limit = allowed > most ? `it had ${allowed}, and may only shrink` : `${most} are allowed`;
    breaches.push({ where, text: `${name}; ${limit}: part it by what its parts do` });
  }
  for (const key of Object.keys(allowances)) {
    if (!found.has(key)) {
      breaches.push({
        where: key,
        text: "is listed as too long and is not: run `npm run format`, which strikes it",
      });
    }
  }
  return breaches;
}

/** The list as it may stand from now on: nothing new, nothing greater. */
export function shrunk(files: readonly SourceFile[], allowances: Allowances): Allowances {
  const found = tooLong(files);
  return Object.fromEntries(
    Object.entries(allowances)
      .filter(([key]) => found.has(key))
      .map(([key, lines]) => [key, Math.min(lines, found.get(key)!.lines)] as const)
      .sort(([a], [b]) => (a < b ? -1 : 1)),
  );
}
