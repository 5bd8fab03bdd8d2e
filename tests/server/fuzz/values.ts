/** Values that a JSON schema asks for, and values that nobody asked for. */
import type { Chance } from "../../../src/statistics/chance.ts";

export type Schema = { readonly [name: string]: unknown };

export interface Draw {
  readonly chance: Chance;
  /** Parts that schemas refer to, by their name. */
  readonly parts: Readonly<Record<string, Schema>>;
  /** How often a value is not what its schema asks for, 0 to 1. */
  readonly odd: number;
}

/** Values inside values that are drawn; deeper ones are left empty. */
const DEEPEST = 6;

const ODD_TEXTS: readonly string[] = [
  ...["", " ", "\0", "a\0b", "null", "NaN", "-1", "1e308", "..", "../../etc/passwd", "%00", "%2e%2e%2f"],
  ...["'; drop table takes; --", "$1", "{{1}}", "<script>1</script>", "__proto__", "constructor"],
  ...["\ud800", "\uffff", "\u202eabc", "👩‍🎹".repeat(50), "é".repeat(300), "x".repeat(5000), "\r\nx: y"],
  ...["0000-01-01", "2026-02-31", "99999-01-01", "2026-03-01T25:00:00Z", "| C7 |".repeat(400), "| H9 |"],
];
const ODD_NUMBERS = [0, -0, -1, 0.5, 1e-320, 1e308, -1e308, 2 ** 31, 2 ** 53, -(2 ** 63), 1e21, 4294967296.5];

export function oneOf<T>({ chance }: Pick<Draw, "chance">, list: readonly T[]): T {
  return list[Math.floor(chance() * list.length)]!;
}

export function oddText(draw: Draw): string {
  return oneOf(draw, ODD_TEXTS);
}

export function oddValue(draw: Draw, depth = 0): unknown {
  const kinds = depth > 2 ? 4 : 8;
  switch (Math.floor(draw.chance() * kinds)) {
    case 0:
      return oddText(draw);
    case 1:
      return oneOf(draw, ODD_NUMBERS);
    case 2:
      return null;
    case 3:
      return draw.chance() < 0.5;
    case 4:
      return [oddValue(draw, depth + 1), oddValue(draw, depth + 1)];
    case 5:
      return { [oddText(draw)]: oddValue(draw, depth + 1) };
    case 6:
      return Array.from({ length: 300 }, () => 1);
    default:
      return JSON.parse("[".repeat(60) + "]".repeat(60));
  }
}

/** A value that mostly is what the schema asks for. */
export function drawn(schema: Schema, draw: Draw, depth = 0): unknown {
  if (draw.chance() < draw.odd) return oddValue(draw);
  if (typeof schema.$ref === "string") {
    return drawn(draw.parts[schema.$ref.split("/").at(-1)!] ?? {}, draw, depth);
  }
  const choices = (schema.anyOf ?? schema.oneOf) as Schema[] | undefined;
  if (choices !== undefined) return drawn(oneOf(draw, choices), draw, depth);
  if (schema.const !== undefined) return schema.const;
  if (Array.isArray(schema.enum)) return oneOf(draw, schema.enum);
  const type = Array.isArray(schema.type) ? oneOf(draw, schema.type) : schema.type;
  switch (type) {
    case "string":
      return textOf(schema, draw);
    case "integer":
    case "number":
      return numberOf(schema, draw, type === "integer");
    case "boolean":
      return draw.chance() < 0.5;
    case "array":
      return listOf(schema, draw, depth);
    case "object":
      return objectOf(schema, draw, depth);
    case "null":
      return null;
    default:
      return oddValue(draw, 2);
  }
}

function textOf(schema: Schema, draw: Draw): string {
  if (schema.format === "date") return oneOf(draw, ["2026-03-01", "0001-01-01", "9999-12-31"]);
  const most = Math.min(Number(schema.maxLength ?? 40), 60);
  const least = Number(schema.minLength ?? 0);
  const length = least + Math.floor(draw.chance() * (Math.max(most, least) - least + 1));
  return oneOf(draw, ["a", "F", "7", "é", " b"])
    .repeat(Math.max(1, length))
    .slice(0, Math.max(least, length));
}

function numberOf(schema: Schema, draw: Draw, whole: boolean): number {
  const low = Number(schema.minimum ?? schema.exclusiveMinimum ?? -1000);
  const high = Number(schema.maximum ?? schema.exclusiveMaximum ?? 1000);
  const value = oneOf(draw, [
    low,
    high,
    low + draw.chance() * (high - low),
    Math.min(high, Math.max(low, 1)),
  ]);
  return whole ? Math.round(value) : value;
}

function listOf(schema: Schema, draw: Draw, depth: number): unknown[] {
  if (depth > DEEPEST) return [];
  const fixed = schema.prefixItems as Schema[] | undefined;
  if (fixed !== undefined) return fixed.map((one) => drawn(one, draw, depth + 1));
  const length = oneOf(draw, [Number(schema.minItems ?? 0), 1, 2, 3]);
  return Array.from({ length }, () => drawn((schema.items ?? {}) as Schema, draw, depth + 1));
}

function objectOf(schema: Schema, draw: Draw, depth: number): Record<string, unknown> {
  const required = new Set((schema.required as string[] | undefined) ?? []);
  const given: [string, unknown][] = [];
  for (const [name, inner] of Object.entries((schema.properties ?? {}) as Record<string, Schema>)) {
    const kept = required.has(name) ? draw.chance() > draw.odd / 4 : depth <= DEEPEST && draw.chance() < 0.4;
    if (kept) given.push([name, drawn(inner, draw, depth + 1)]);
  }
  const any = schema.additionalProperties;
  if (typeof any === "object" && any !== null && depth <= DEEPEST) {
    given.push([oneOf(draw, ["a", "1", "note"]), drawn(any as Schema, draw, depth + 1)]);
  }
  if (draw.chance() < draw.odd) given.push([oddText(draw), oddValue(draw)]);
  // Not by assignment: one of the odd names is __proto__, which JSON may hold.
  return Object.fromEntries(given);
}
