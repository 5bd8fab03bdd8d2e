/** Tables of the reference from published schemas: a section a part, a row a field. */
import type { JsonSchema } from "../../src/export/index.ts";
import type { Section } from "./page.ts";

const COLUMNS = ["field", "type", "meaning"] as const;

/** A section for each object of a schema: the one itself, and all parts in `parts` that it leads to, in that order. */
export function sectionOf(
  title: string,
  schema: JsonSchema,
  parts: Readonly<Record<string, JsonSchema>>,
): Section {
  const intro = typeof schema.description === "string" ? schema.description : undefined;
  return {
    title,
    ...(intro === undefined ? {} : { intro }),
    columns: COLUMNS,
    rows: insideOf(schema).flatMap((one) => fieldRows(one, parts)),
  };
}

function fieldRows(schema: JsonSchema, parts: Readonly<Record<string, JsonSchema>>, path = ""): string[][] {
  const required = new Set((schema.required as string[] | undefined) ?? []);
  return Object.entries((schema.properties as Record<string, JsonSchema> | undefined) ?? {}).flatMap(
    ([name, field]) => {
      const way = `${path}${name}`;
      const may = required.has(name) ? "" : "may be left out; ";
      const row = [way, typeOf(field), `${may}${meaningOf(field, parts)}`];
      return [
        row,
        ...insideOf(field).flatMap((inner) => fieldRows(inner, parts, `${way}${isList(field) ? "[]" : ""}.`)),
      ];
    },
  );
}

/** The objects of a schema that have no name of their own: itself, its items, its alternatives. */
function insideOf(field: JsonSchema): JsonSchema[] {
  if (field.properties !== undefined) return [field];
  return [field.items, field.additionalProperties, field.anyOf, field.oneOf]
    .flat()
    .filter((one): one is JsonSchema => typeof one === "object" && one !== null)
    .flatMap(insideOf);
}

function isList({ type, anyOf }: JsonSchema): boolean {
  return type === "array" || ((anyOf as JsonSchema[] | undefined)?.some(isList) ?? false);
}

function meaningOf({ description, $ref }: JsonSchema, parts: Readonly<Record<string, JsonSchema>>): string {
  return String(
    description ?? (typeof $ref === "string" ? parts[nameOf($ref)]?.description : undefined) ?? "",
  );
}

function nameOf(reference: string): string {
  return reference.slice(reference.lastIndexOf("/") + 1);
}

/** A type in words: "number or null", "list of Note", "one of right, left". */
function typeOf(schema: JsonSchema): string {
  if (typeof schema.$ref === "string") return nameOf(schema.$ref);
  if (schema.const !== undefined) return JSON.stringify(schema.const);
  if (Array.isArray(schema.enum)) return `one of ${schema.enum.join(", ")}`;
  const choices = (schema.anyOf ?? schema.oneOf) as JsonSchema[] | undefined;
  if (choices !== undefined) {
    if (choices.every((one) => one.const !== undefined))
      return `one of ${choices.map((one) => one.const).join(", ")}`;
    return [...new Set(choices.map(typeOf))].join(" or ");
  }
  if (schema.type === "array")
    return `list of ${schema.items === undefined ? "anything" : typeOf(schema.items as JsonSchema)}`;
  if (schema.type === "object" && schema.properties === undefined) return "values by name";
  return schema.type === undefined ? "anything" : String(schema.type);
}

/** Names of the parts that a schema leads to, each once, in the order of meeting. */
export function partsOf(
  schema: unknown,
  parts: Readonly<Record<string, JsonSchema>>,
  met = new Set<string>(),
): Set<string> {
  if (Array.isArray(schema)) for (const one of schema) partsOf(one, parts, met);
  else if (typeof schema === "object" && schema !== null) {
    for (const [name, inner] of Object.entries(schema)) {
      const part = name === "$ref" && typeof inner === "string" ? nameOf(inner) : null;
      if (part === null) partsOf(inner, parts, met);
      else if (!met.has(part) && parts[part] !== undefined) {
        met.add(part);
        partsOf(parts[part], parts, met);
      }
    }
  }
  return met;
}
