/**
 * What stands in the sources and in no table: codes of problems and warnings with their words, and what the rules say
 * in their comments. Read by the bundler's parser, so it is a tool of development: its result is kept in `scanned.json`.
 */
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { parseSync } from "vite";
import { DEFINING_FUNCTIONS } from "./defined-by.ts";

export interface Code {
  readonly code: string;
  readonly message: string;
  readonly mend: string;
}

export interface Scanned {
  readonly problems: readonly Code[];
  readonly warnings: readonly Code[];
  /** Comments of functions that are rules, by the function's name. */
  readonly definitions: Readonly<Record<string, string>>;
}

interface Node {
  readonly type: string;
  readonly start: number;
  readonly [key: string]: unknown;
}

const CODE = /^[a-z]+(-[a-z0-9]+)+$|^internal$|^unreachable$/;

export function scanSources(root: string): Scanned {
  const problems = new Map<string, Code>();
  const warnings = new Map<string, Code>();
  const definitions: Record<string, string> = {};
  for (const folder of ["src", "server"]) {
    for (const entry of readdirSync(join(root, folder), { recursive: true, encoding: "utf8" }).sort()) {
      const path = `${folder}/${entry.replaceAll("\\", "/")}`;
      if (!path.endsWith(".ts") || path.endsWith(".d.ts")) continue;
      const text = readFileSync(join(root, path), "utf8");
      const { program, comments } = parseSync(path, text);
      const known = constantsOf(program as unknown as Node);
      walk(program as unknown as Node, (node) => {
        for (const found of problemsIn(node, known)) keep(problems, found);
        for (const found of warningsIn(node, known)) keep(warnings, found);
        if (node.type !== "ExportNamedDeclaration") return;
        const name = ((node.declaration as Node | null)?.id as Node | undefined)?.name;
        const said = comments.findLast((one) => one.end <= node.start && one.value.startsWith("*"));
        if (
          typeof name !== "string" ||
          !DEFINING_FUNCTIONS.has(name) ||
          said === undefined ||
          text.slice(said.end, node.start).trim() !== ""
        )
          return;
        definitions[name] = inOneLine(said.value);
      });
    }
  }
  const sorted = (codes: ReadonlyMap<string, Code>) =>
    [...codes.values()].sort((a, b) => (a.code < b.code ? -1 : 1));
  const named = Object.entries(definitions).sort(([a], [b]) => (a < b ? -1 : 1));
  return { problems: sorted(problems), warnings: sorted(warnings), definitions: Object.fromEntries(named) };
}

/** The first words of a code are kept: where it is met in several places, they say the same. */
function keep(codes: Map<string, Code>, found: Code): void {
  const known = codes.get(found.code);
  if (known === undefined || (known.message === "" && found.message !== "")) codes.set(found.code, found);
}

function problemsIn(node: Node, known: Constants): Code[] {
  if (node.type !== "NewExpression" && node.type !== "CallExpression") return [];
  const callee = (node.callee as Node).name;
  const given = node.arguments as readonly Node[];
  const from = { Problem: 0, HttpProblem: 1, chartProblem: 0 }[String(callee)];
  if (from === undefined) return [];
  const mend = saidIn(given[from + 3], known);
  const messages = saidIn(given[from + 1], known);
  return textsOf(given[from], known)
    .filter((code) => CODE.test(code))
    .map((code, i) => ({ code, message: messages[i] ?? messages[0] ?? "", mend: mend[i] ?? mend[0] ?? "" }));
}

/** Warnings are collected by a method, or stand as values with a code and a message. */
function warningsIn(node: Node, known: Constants): Code[] {
  if (node.type === "ObjectExpression") {
    const field = (name: string) =>
      (node.properties as readonly Node[]).find(
        (one) => ((one.key as Node | undefined)?.name ?? null) === name,
      )?.value as Node | undefined;
    if (field("where") === undefined || field("message") === undefined) return [];
    return toCodes(field("code"), field("message"), known);
  }
  const callee = node.callee as Node | undefined;
  if (node.type !== "CallExpression" || callee?.type !== "MemberExpression") return [];
  const { object, property } = callee as unknown as { object: Node; property: Node };
  const collects =
    property.name === "add" &&
    /warnings$/i.test(String(object.name ?? (object.property as Node | undefined)?.name));
  const given = node.arguments as readonly Node[];
  return collects
    ? toCodes(
        given[0],
        given.slice(1).find((one) => saidIn(one, known).length > 0),
        known,
      )
    : [];
}

function toCodes(code: Node | undefined, message: Node | undefined, known: Constants): Code[] {
  const messages = saidIn(message, known);
  return textsOf(code, known)
    .filter((one) => CODE.test(one))
    .map((one, i) => ({ code: one, message: messages[i] ?? messages[0] ?? "", mend: "" }));
}

/** What the constants of a file stand for, by name. */
type Constants = ReadonlyMap<string, Node>;

function constantsOf(program: Node): Constants {
  const known = new Map<string, Node>();
  walk(program, (node) => {
    const name = (node.id as Node | undefined)?.name;
    if (node.type === "VariableDeclarator" && typeof name === "string" && node.init) {
      known.set(name, node.init as Node);
    }
  });
  return known;
}

/** The texts that an expression may come to, or else the first sentence that stands anywhere in it. */
function saidIn(node: Node | undefined, known: Constants): string[] {
  const texts = textsOf(node, known);
  if (texts.length > 0 || node === undefined) return texts;
  const found: string[] = [];
  walk(node, (inner) => {
    if (found.length === 0)
      found.push(
        ...textsOf(inner, known)
          .filter((text) => /\w \w/.test(text))
          .slice(0, 1),
      );
  });
  return found;
}

/** The texts that an expression may come to; what is filled in stands as "…". */
function textsOf(node: Node | undefined, known: Constants): string[] {
  switch (node?.type) {
    case "Literal":
      return typeof node.value === "string" ? [node.value] : [];
    case "TemplateLiteral": {
      const parts = (node.quasis as readonly { value: { cooked: string } }[]).map(
        ({ value }) => value.cooked,
      );
      return [inOneLine(parts.join("…"))];
    }
    case "ConditionalExpression":
      return [...textsOf(node.consequent as Node, known), ...textsOf(node.alternate as Node, known)];
    case "BinaryExpression": {
      const [left, right] = [textsOf(node.left as Node, known), textsOf(node.right as Node, known)];
      return node.operator === "+" ? [`${left[0] ?? "…"}${right[0] ?? "…"}`] : [];
    }
    case "Identifier": {
      const meant = known.get(String(node.name));
      return meant === undefined || meant === node ? [] : textsOf(meant, new Map());
    }
    default:
      return [];
  }
}

function walk(node: Node, visit: (node: Node) => void): void {
  visit(node);
  for (const value of Object.values(node)) {
    for (const one of [value].flat()) {
      if (typeof one === "object" && one !== null && typeof (one as Node).type === "string")
        walk(one as Node, visit);
    }
  }
}

/** A comment, or a text over several lines, in one; without its stars and its tags. */
function inOneLine(text: string): string {
  return text
    .replace(/^\*/, "")
    .replace(/\n\s*\* ?/g, "\n")
    .replace(/\n\s*@[\s\S]*$/, "")
    .replace(/\s+/g, " ")
    .trim();
}
