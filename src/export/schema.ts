/** Schemas as they are published: JSON Schema 2020-12, made from the schemas that check and type. */
import { z } from "zod";
import { analysisSchema } from "../account.ts";

export type JsonSchema = Record<string, unknown>;

/**
 * A schema as JSON Schema. Parts that have an id stand in `$defs`. Fields are only ever added, so that what an older
 * schema does not know is allowed.
 *
 * @param io "input" for what is sent, where defaults may be left out; "output" for what is answered
 */
export function jsonSchemaOf(schema: z.ZodType, io: "input" | "output"): JsonSchema {
  return z.toJSONSchema(schema, {
    io,
    unrepresentable: "any",
    override: ({ jsonSchema }) => {
      if (jsonSchema.additionalProperties === false) delete jsonSchema.additionalProperties;
    },
  }) as JsonSchema;
}

/** The account as JSON Schema (draft 2020-12), made from the schema that checks it. */
export function accountJsonSchema(): JsonSchema {
  const { $ref: _, $defs, ...head } = jsonSchemaOf(analysisSchema, "output");
  const { Account, ...parts } = $defs as Record<string, JsonSchema>;
  return { ...head, title: "Ledgerline account", ...Account, $defs: parts };
}
