/** How long a file and a function may be. */
import type { Breach } from "./breach.ts";
import type { SourceFile } from "./tree.ts";

/** A page of the screen and a half: more cannot be read without scrolling back. [practice] */
export const MOST_FUNCTION_LINES = 80;

/** Five minutes' reading, and one subject. [practice] */
export const MOST_FILE_LINES = 300;

export function lengthBreaches(files: readonly SourceFile[]): Breach[] {
  return files.flatMap((file) => [...fileBreach(file), ...functionBreaches(file)]);
}

function fileBreach({ path, lines }: SourceFile): Breach[] {
  return lines > MOST_FILE_LINES && !isTable(path) ? [tooLong(path, "", lines, MOST_FILE_LINES)] : [];
}

function functionBreaches({ path, functions }: SourceFile): Breach[] {
  return functions
    .filter(({ name, lines }) => lines > MOST_FUNCTION_LINES && !isTestBody(path, name))
    .map(({ name, line, lines }) => tooLong(`${path}:${line}`, `${name} `, lines, MOST_FUNCTION_LINES));
}

function tooLong(where: string, name: string, lines: number, most: number): Breach {
  return { where, text: `${name}has ${lines} lines; ${most} are allowed: part it by what its parts do` };
}

/** A test may be a table of published examples, which is read line by line and not as a whole. */
function isTable(path: string): boolean {
  return path.startsWith("tests/");
}

/** `describe` holds tests as a chapter holds sections: its length says nothing. */
function isTestBody(path: string, name: string): boolean {
  return path.startsWith("tests/") && name === "(callback)";
}
