/** The OpenAPI 3.1 document, made from the same definitions that the routes are checked by. */
import { z } from "zod";
import { problemSchema } from "./errors.ts";
import type { Route } from "./route.ts";

type Json = Record<string, unknown>;

export function openApi(routes: readonly Route[]): Json {
  const paths: Record<string, Json> = {};
  for (const route of routes) {
    const path = `/api${route.path.replace(/:(\w+)/g, "{$1}")}`;
    paths[path] ??= {};
    paths[path][route.method] = operation(route);
  }
  return {
    openapi: "3.1.0",
    info: {
      title: "Ledgerline",
      version: "1",
      description: "An account of every note of an improvised solo against its chart.",
      license: { name: "AGPL-3.0-or-later", identifier: "AGPL-3.0-or-later" },
    },
    paths,
    components: { schemas: { Problem: schemaOf(problemSchema, "output") } },
  };
}

function operation(route: Route): Json {
  return {
    summary: route.summary,
    parameters: [...parameters(route.params, "path"), ...parameters(route.query, "query")],
    ...(route.accepts === "none" ? {} : { requestBody: requestBody(route) }),
    responses: {
      ...Object.fromEntries(
        Object.entries(route.answers).map(([status, answer]) => [
          status,
          {
            description: answer.description,
            ...(answer.schema === undefined && answer.type === undefined
              ? {}
              : {
                  content: {
                    [answer.type ?? "application/json"]:
                      answer.schema === undefined ? {} : { schema: schemaOf(answer.schema, "output") },
                  },
                }),
          },
        ]),
      ),
      default: {
        description: "what is wrong, where, and what to do",
        content: { "application/problem+json": { schema: { $ref: "#/components/schemas/Problem" } } },
      },
    },
  };
}

function requestBody(route: Route): Json {
  const schema = schemaOf(route.body, "input");
  if (route.accepts === "json") {
    const example = route.example?.body;
    return {
      required: true,
      content: { "application/json": { schema, ...(example === undefined ? {} : { example }) } },
    };
  }
  const one = { type: "string", format: "binary" };
  const file = route.accepts === "forms" ? { type: "array", items: one } : one;
  const properties = { ...(schema.properties as Json), file };
  return {
    required: true,
    content: { "multipart/form-data": { schema: { ...schema, properties } } },
  };
}

function parameters(schema: z.ZodType, place: "path" | "query"): Json[] {
  const json = schemaOf(schema, "input");
  const required = new Set((json.required as string[] | undefined) ?? []);
  return Object.entries((json.properties as Json | undefined) ?? {}).map(([name, value]) => ({
    name,
    in: place,
    required: place === "path" || required.has(name),
    schema: value,
  }));
}

function schemaOf(schema: z.ZodType, io: "input" | "output"): Json {
  const { $schema, ...rest } = z.toJSONSchema(schema, { io, unrepresentable: "any" }) as Json;
  return rest;
}
