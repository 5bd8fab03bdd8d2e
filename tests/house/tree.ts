/** The source files of the house, read once for all laws: their imports and the lengths of their functions. */
import { readdirSync, readFileSync } from "node:fs";
import { join, posix } from "node:path";
import { parseSync } from "vite";

export interface Import {
  /** As written: "./note.ts", "zod". */
  readonly request: string;
  /** Path of the file from the root when it is one of ours, else null. */
  readonly target: string | null;
  /** True when only types are taken. */
  readonly typeOnly: boolean;
  readonly line: number;
}

export interface FunctionSize {
  /** Name of the function, or of what it is given to; "(callback)" for one that is handed on where it stands. */
  readonly name: string;
  readonly line: number;
  /** From the first line to the last, both counted. */
  readonly lines: number;
}

export interface Export {
  readonly name: string;
  /** As written: "Rule", "readonly Route[]", "(PracticeContext) => ExerciseBar[]"; "" where nothing is written. */
  readonly type: string;
}

export interface SourceFile {
  /** From the root, with slashes: "src/take/note.ts". */
  readonly path: string;
  readonly lines: number;
  readonly imports: readonly Import[];
  readonly functions: readonly FunctionSize[];
  /** Constants and functions that are exported where they are declared. */
  readonly exports: readonly Export[];
  /** Names that the file speaks of, outside of its imports. */
  readonly names: ReadonlySet<string>;
}

interface Node {
  readonly type: string;
  readonly start: number;
  readonly end: number;
  readonly [key: string]: unknown;
}

/** Reads every TypeScript file below the folders. Throws when a file cannot be parsed, with its path. */
export function readTree(root: string, folders: readonly string[]): SourceFile[] {
  return folders
    .flatMap((folder) => filesBelow(root, folder))
    .filter((path) => path.endsWith(".ts") && !path.endsWith(".d.ts"))
    .map((path) => readSource(path, readFileSync(join(root, path), "utf8")));
}

/** Paths of all files below a folder, from the root; none when the folder is not there. */
function filesBelow(root: string, folder: string): string[] {
  let entries: string[];
  try {
    entries = readdirSync(join(root, folder), { recursive: true, encoding: "utf8" });
  } catch {
    return [];
  }
  return entries.map((entry) => `${folder}/${entry.replaceAll("\\", "/")}`).sort();
}

export function readSource(path: string, text: string): SourceFile {
  const { program, module, errors } = parseSync(path, text);
  if (errors.length > 0) throw new Error(`${path} cannot be parsed: ${errors[0]!.message}`);
  const starts = [0];
  for (let at = text.indexOf("\n"); at >= 0; at = text.indexOf("\n", at + 1)) starts.push(at + 1);
  const lineOf = (offset: number) => {
    let low = 0;
    for (let high = starts.length; high - low > 1; ) {
      const middle = (low + high) >> 1;
      if (starts[middle]! <= offset) low = middle;
      else high = middle;
    }
    return low + 1;
  };
  const imports: Import[] = [];
  const add = (request: string, typeOnly: boolean, offset: number) =>
    imports.push({ request, target: targetOf(path, request), typeOnly, line: lineOf(offset) });
  for (const found of module.staticImports) {
    add(found.moduleRequest.value, allTypes(found.entries), found.start);
  }
  for (const found of module.staticExports) {
    const from = found.entries.find((entry) => entry.moduleRequest);
    if (from?.moduleRequest) add(from.moduleRequest.value, allTypes(found.entries), found.start);
  }
  const functions: FunctionSize[] = [];
  const exports: Export[] = [];
  const names = new Set<string>();
  walk(program as unknown as Node, null, (node, parent) => {
    if (node.type === "ImportDeclaration") return false;
    if (node.type === "Identifier") names.add(String(node.name));
    if (node.type === "ExportNamedDeclaration") exports.push(...exportsOf(node, text));
    const source = (node.source as Node | undefined)?.value;
    if (node.type === "ImportExpression" && typeof source === "string") add(source, false, node.start);
    if (node.type === "TSImportType" && typeof source === "string") add(source, true, node.start);
    if (isFunction(node)) {
      const line = lineOf(node.start);
      functions.push({ name: nameOf(node, parent), line, lines: lineOf(node.end) - line + 1 });
    }
    return true;
  });
  const lines = text.endsWith("\n") ? starts.length - 1 : starts.length;
  return { path, lines, imports, functions, exports, names };
}

function allTypes(entries: readonly { readonly isType: boolean }[]): boolean {
  return entries.length > 0 && entries.every((entry) => entry.isType);
}

function targetOf(path: string, request: string): string | null {
  return request.startsWith(".") ? posix.join(posix.dirname(path), request.replace(/\?.*$/, "")) : null;
}

function isFunction(node: Node): boolean {
  return (
    node.type === "FunctionDeclaration" ||
    node.type === "FunctionExpression" ||
    node.type === "ArrowFunctionExpression"
  );
}

function nameOf(node: Node, parent: Node | null): string {
  const named = (node.id ?? parent?.id ?? parent?.key) as Node | null | undefined;
  if (named && (parent?.value === node || parent?.init === node || node.id)) {
    return String(named.name ?? named.value ?? "(computed)");
  }
  return parent?.type === "ExportDefaultDeclaration" ? "default" : "(callback)";
}

function exportsOf(node: Node, text: string): Export[] {
  const written = (annotated: unknown) => {
    const type = (annotated as Node | null | undefined)?.typeAnnotation as Node | null | undefined;
    return type ? text.slice(type.start, type.end) : "";
  };
  const declared = node.declaration as Node | null;
  if (declared?.type === "FunctionDeclaration") {
    const given = (declared.params as Node[]).map((param) => written(param.typeAnnotation));
    const name = String((declared.id as Node).name);
    return [{ name, type: `(${given.join(", ")}) => ${written(declared.returnType)}` }];
  }
  if (declared?.type !== "VariableDeclaration") return [];
  return (declared.declarations as Node[])
    .map((one) => one.id as Node)
    .filter((id) => id.type === "Identifier")
    .map((id) => ({ name: String(id.name), type: written(id.typeAnnotation) }));
}

/** Visits a node and, unless `visit` says false, all below it. */
function walk(node: Node, parent: Node | null, visit: (node: Node, parent: Node | null) => boolean): void {
  if (!visit(node, parent)) return;
  for (const value of Object.values(node)) {
    for (const child of Array.isArray(value) ? value : [value]) {
      if (child !== null && typeof child === "object" && typeof child.type === "string") {
        walk(child as Node, node, visit);
      }
    }
  }
}
