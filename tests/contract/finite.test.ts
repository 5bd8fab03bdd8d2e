/**
 * Whatever is sent has an end: a number without bounds, or a list without a greatest length, is an invitation to fill
 * the memory of whoever reads it. (CWE-770, allocation of resources without limits.)
 */
import { expect, it } from "vitest";
import { openApi } from "../../server/openapi.ts";
import { routes } from "../../server/routes/index.ts";
import { optionsSchema } from "../../src/account.ts";
import { jsonSchemaOf } from "../../src/export/index.ts";
import type { Json } from "./published.ts";

/** JSON numbers that every reader keeps as they are (RFC 8259, section 6). */
const WHOLE = 2 ** 53 - 1;
/** Seeds are any whole number, and decide nothing but which random numbers are drawn. */
const SEED = /\bseed$/;

/** Places of a schema at which a number or a list has no bounds. */
function boundless(root: Json, parts: Json, at: string): string[] {
  const found: string[] = [];
  const seen = new Set<unknown>();
  const walk = (schema: Json, place: string) => {
    if (seen.has(schema)) return;
    seen.add(schema);
    if (typeof schema.$ref === "string") walk(parts[schema.$ref.split("/").at(-1)!] as Json, place);
    const types = [schema.type].flat();
    const fixed = schema.const !== undefined || schema.enum !== undefined;
    if (!fixed && (types.includes("number") || types.includes("integer"))) {
      const most = SEED.test(place) ? WHOLE : 1e6;
      for (const bound of [
        schema.minimum ?? schema.exclusiveMinimum,
        schema.maximum ?? schema.exclusiveMaximum,
      ]) {
        if (typeof bound !== "number" || !(Math.abs(bound) <= most)) found.push(place);
      }
    }
    if (types.includes("array") && schema.prefixItems === undefined && schema.maxItems === undefined) {
      found.push(`${place}[]`);
    }
    for (const many of ["anyOf", "oneOf", "allOf", "prefixItems"]) {
      for (const one of (schema[many] ?? []) as Json[]) walk(one, place);
    }
    for (const inner of [schema.items, schema.additionalProperties]) {
      if (typeof inner === "object" && inner !== null) walk(inner as Json, `${place}[]`);
    }
    for (const [name, inner] of Object.entries((schema.properties ?? {}) as Record<string, Json>)) {
      walk(inner, `${place}.${name}`);
    }
  };
  walk(root, at);
  return found;
}

it("every number of the options has a finite range, and every list a greatest length", () => {
  const { $defs = {}, ...schema } = jsonSchemaOf(optionsSchema, "input");
  expect(boundless(schema, $defs as Json, "options")).toEqual([]);
});

interface Operation {
  readonly parameters?: readonly { readonly name: string; readonly schema: Json }[];
  readonly requestBody?: { readonly content: Readonly<Record<string, { readonly schema: Json }>> };
}

it("so has every number and list of a path, a query and a body", () => {
  const document = openApi(routes);
  const parts = (document.components as { schemas: Json }).schemas;
  const found = Object.entries(document.paths as Record<string, Record<string, Operation>>).flatMap(
    ([path, operations]) =>
      Object.entries(operations).flatMap(([method, { parameters = [], requestBody }]) => [
        ...parameters.flatMap(({ name, schema }) => boundless(schema, parts, `${method} ${path} ${name}`)),
        ...Object.values(requestBody?.content ?? {}).flatMap(({ schema }) =>
          boundless(schema, parts, `${method} ${path}`),
        ),
      ]),
  );
  expect(found).toEqual([]);
});

it("the walk finds what has no bounds", () => {
  const schema = { type: "object", properties: { a: { type: "number" }, b: { type: "array", items: {} } } };
  expect(boundless(schema, {}, "it")).toEqual(["it.a", "it.a", "it.b[]"]);
});
