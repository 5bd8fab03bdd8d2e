/**
 * An independent reader of what is published: ajv, a JSON Schema validator that knows nothing of the schemas in `src`.
 * The published schemas allow fields that they do not know, since fields are only ever added; here nothing may be
 * undeclared.
 */
import { Ajv2020, type ErrorObject } from "ajv/dist/2020.js";
import formatsOf from "ajv-formats";

export type Json = Record<string, unknown>;

/** What is wrong with a value, in words; null when nothing is. */
export type Validate = (value: unknown) => string | null;

/** A JSON Schema in which no object may have fields that it does not declare. */
export function closed<T>(schema: T): T {
  return JSON.parse(JSON.stringify(schema), (_, value) =>
    isObjectSchema(value) ? { ...value, additionalProperties: false } : value,
  ) as T;
}

/** What an OpenAPI document holds beside schemas. */
const OPENAPI = ["openapi", "info", "servers", "tags", "paths", "components", "security"];

/** Validators for the parts of a document, by their JSON pointer; each is made when it is first asked for. */
export function validatorsOf(document: Json): (pointer: string) => Validate {
  const ajv = new Ajv2020({ allErrors: true, strict: true, strictRequired: false, allowUnionTypes: true });
  (formatsOf as unknown as (ajv: Ajv2020) => void)(ajv);
  ajv.addVocabulary(OPENAPI);
  ajv.addSchema({ ...document, $id: "published:" });
  const made = new Map<string, Validate>();
  return (pointer) => {
    const known = made.get(pointer);
    if (known !== undefined) return known;
    const check = ajv.compile({ $ref: `published:#${encodeURI(pointer)}` });
    const validate: Validate = (value) => (check(value) ? null : told(check.errors ?? []));
    made.set(pointer, validate);
    return validate;
  };
}

/** A validator for a whole document. */
export function validatorOf(document: Json): Validate {
  return validatorsOf(document)("");
}

function told(errors: readonly ErrorObject[]): string {
  return [
    ...new Set(
      errors.map((error) => `${error.instancePath || "/"} ${error.message} ${JSON.stringify(error.params)}`),
    ),
  ]
    .slice(0, 6)
    .join("\n");
}

function isObjectSchema(value: unknown): boolean {
  const schema = value as { type?: unknown; properties?: unknown; additionalProperties?: unknown } | null;
  return (
    typeof schema === "object" &&
    schema?.type === "object" &&
    typeof schema.properties === "object" &&
    schema.additionalProperties === undefined
  );
}

/** A field of a published schema, by the way to it. */
export interface Field {
  readonly path: string;
  readonly schema: Json;
}

/** Every field of every object in a schema, its parts and its alternatives; parts by name are not entered twice. */
export function fieldsOf(schema: unknown, path = ""): Field[] {
  if (Array.isArray(schema)) return schema.flatMap((one) => fieldsOf(one, path));
  if (typeof schema !== "object" || schema === null) return [];
  const { properties, ...rest } = schema as { properties?: Record<string, Json> };
  const own = Object.entries(properties ?? {}).flatMap(([name, inner]) => [
    { path: `${path}.${name}`, schema: inner },
    ...fieldsOf(inner, `${path}.${name}`),
  ]);
  const inside = Object.entries(rest)
    .filter(([name]) => !["example", "examples", "default", "enum", "const"].includes(name))
    .flatMap(([name, inner]) => fieldsOf(inner, STEPS.has(name) ? path : `${path}/${name}`));
  return [...own, ...inside];
}

/** Keywords that stand between a field and its parts and tell a reader nothing. */
const STEPS = new Set([
  "items",
  "anyOf",
  "oneOf",
  "allOf",
  "additionalProperties",
  "prefixItems",
  "$defs",
  "schema",
]);

/** What a field says of itself, or the part that it refers to does; empty when nobody does. */
export function descriptionOf(document: Json, schema: Json): string {
  if (typeof schema.description === "string") return schema.description;
  if (typeof schema.$ref !== "string") return "";
  const part = schema.$ref
    .slice(2)
    .split("/")
    .reduce<Json>((inner, name) => inner[name] as Json, document);
  return descriptionOf(document, part);
}

/** True where a number may stand, alone or among others. */
export function isNumber(schema: Json): boolean {
  const { type, anyOf, items, additionalProperties } = schema as Record<string, Json | Json[] | string>;
  if (type === "number" || type === "integer") return true;
  return [anyOf, items, additionalProperties]
    .flat()
    .some((one) => typeof one === "object" && one !== null && isNumber(one as Json));
}

/** A number means nothing without one of these. */
export const UNIT =
  /second|beat|semitone|MIDI|share|0 to 1|number|choruses|notes a|tempo|quarter notes|percent|bars|points|version|seed|semitones|ratio|days|takes|status|median|z-score|measure's unit|page|steps|rounds|bytes/i;
