/** What the pages take the answers of the service for: every `fetchJson<Type>(path)` of the client, with its routes. */
import { readFileSync } from "node:fs";
import { dirname, resolve } from "node:path";
import { z } from "zod";
import type { Route } from "../../server/route.ts";
import { routes } from "../../server/routes/index.ts";
import { readTree } from "../house/tree.ts";

export interface PageRead {
  readonly file: string;
  /** The type as it stands there, each name in it led by where it is declared. */
  readonly type: string;
  /** The routes that its path may ask for; none where the path is a name. */
  readonly asked: readonly Route[];
}

const CALL = /fetchJson<((?:[^<>()]|<[^<>]*>)+)>\(/g;

export function pageReads(root: string): PageRead[] {
  return readTree(root, ["client"]).flatMap(({ path }) => {
    const text = readFileSync(resolve(root, path), "utf8");
    return [...text.matchAll(CALL)].flatMap((call) => {
      const type = call[1]!.trim();
      // Of what is not read nothing is said.
      if (/^(unknown|T)$/.test(type)) return [];
      const args = argumentsAt(text, call.index + call[0].length);
      return [{ file: path, type: placed(type, text, resolve(root, path)), asked: routesFor(args) }];
    });
  });
}

/** The text between the parentheses of a call that opens before `start`. */
function argumentsAt(text: string, start: number): string {
  let depth = 1;
  let end = start;
  while (depth > 0) {
    if (text[end] === "(") depth++;
    if (text[end] === ")") depth--;
    end++;
  }
  return text.slice(start, end - 1);
}

function routesFor(args: string): Route[] {
  // A method or an address that is handed in is told elsewhere.
  if (/\{\s*method\s*,/.test(args)) return [];
  const method = /"(POST|PUT|PATCH|DELETE)"/.exec(args)?.[1] ?? (/\bjson\(/.test(args) ? "POST" : "GET");
  const paths = [...args.matchAll(/[`"](\/[^`"]*|\$\{[^`"]*)[`"]/g)].map(([, path]) => path!);
  return paths.flatMap((path) => {
    const place = path
      .split("?")[0]!
      .replace(/^\$\{(?:[^{}]|\{[^{}]*\})*\}/, "START")
      .replace(/\$\{(?:[^{}]|\{[^{}]*\})*\}/g, "PART");
    if (place === "START") return [];
    const pattern = new RegExp(`^${place.replace("START", ".+").replaceAll("PART", "[^/]+")}$`);
    return routes.filter((route) => route.method === method.toLowerCase() && pattern.test(route.path));
  });
}

/** The name under which the schema is published that a type is inferred from; null where it is declared by hand. */
export function publishedNameOf(file: string, type: string): string | null {
  const text = readFileSync(file, "utf8");
  const handedOn = new RegExp(`export (?:type )?\\{[^}]*\\b${type}\\b[^}]*\\} from "([^"]+)"`).exec(
    text,
  )?.[1];
  if (handedOn !== undefined) return publishedNameOf(resolve(dirname(file), handedOn), type);
  const other = new RegExp(`export type ${type} = ([A-Z]\\w*);`).exec(text)?.[1];
  if (other !== undefined) {
    const [, from, name] = /import\("(.*)"\)\.(\w+)/.exec(placed(other, text, file))!;
    return publishedNameOf(from!, name!);
  }
  const schema = new RegExp(`export type ${type} = Frozen<z\\.(?:output|infer)<typeof (\\w+)>>`).exec(
    text,
  )?.[1];
  if (schema === undefined) return null;
  const made = text.slice(text.search(new RegExp(`const ${schema}\\b`)));
  return /^ {2}\.meta\(\{\s*id: "(\w+)"/m.exec(made)?.[1] ?? null;
}

/** The name under which what a route answers is published; or that of the rows in one field of it. */
export function answerNameOf({ answers }: Route, field?: string): string | undefined {
  const kind = answers[200] ?? answers[201] ?? answers[202];
  const whole = kind?.schema;
  const schema =
    field === undefined ? whole : ((whole as z.ZodObject).shape[field] as z.ZodArray | undefined)?.element;
  return schema && z.globalRegistry.get(schema as z.ZodType)?.id;
}

/** @example placed("TakeRow[]", text, "/client/a.ts") // 'import("/server/contract/takes.ts").TakeRow[]' */
function placed(type: string, text: string, file: string): string {
  return type.replace(/(?<![\w.])[A-Z]\w*/g, (name) => {
    for (const [, names, from] of text.matchAll(/import (?:type )?\{([^}]*)\} from "([^"]+)"/g)) {
      if (new RegExp(`\\b${name}\\b`).test(names!))
        return `import("${resolve(dirname(file), from!)}").${name}`;
    }
    return `import("${file}").${name}`;
  });
}
