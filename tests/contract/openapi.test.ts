/** The OpenAPI document: whole, named, described, and what handlers are held to. */
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { describe, expect, it } from "vitest";
import { z } from "zod";
import { openApi, TAGS } from "../../server/openapi.ts";
import { route } from "../../server/route.ts";
import { routes } from "../../server/routes/index.ts";
import { checkAnswersOf } from "./checked-answers.ts";
import { descriptionOf, fieldsOf, isNumber, type Json, UNIT, validatorsOf } from "./published.ts";

const document = openApi(routes);
const paths = document.paths as Record<string, Record<string, Json>>;
const operations = Object.values(paths).flatMap((path) => Object.values(path));
const schemas = (document.components as { schemas: Record<string, Json> }).schemas;

describe("every operation", () => {
  it("has a name of its own, a tag that is explained, a summary, and who may ask", () => {
    expect(operations).toHaveLength(routes.length);
    const names = operations.map(({ operationId }) => operationId);
    expect(new Set(names).size).toBe(names.length);
    const tags = (document.tags as { name: string }[]).map(({ name }) => name);
    expect(new Set(tags).size).toBe(tags.length);
    for (const { operationId, tags: own, summary, description } of operations) {
      expect(operationId).toMatch(/^[a-z]+([A-Z][a-z]*)+$/);
      expect(tags).toContain((own as string[])[0]);
      expect(summary).toBeTruthy();
      expect(description).toBeTruthy();
    }
    expect(Object.keys(TAGS).sort()).toEqual(
      [...new Set(routes.map(({ path }) => path.split("/")[1]!))].sort(),
    );
  });

  it("asks for a token unless it is open", () => {
    expect(document.security).toEqual([{ token: [] }, { session: [] }]);
    const open = routes.filter(({ access }) => access === "open").length;
    expect(operations.filter(({ security }) => JSON.stringify(security) === "[]")).toHaveLength(open);
  });

  it("has parameters and fields that are described, with a unit where they are numbers", () => {
    const parameters = operations.flatMap(({ operationId, parameters: all }) =>
      (all as { name: string; description?: string; schema: Json }[]).map(
        ({ name, description, schema }) => ({
          path: `${operationId}.${name}`,
          schema: { ...schema, description },
        }),
      ),
    );
    const bodies = operations.flatMap(({ operationId, requestBody, responses }) =>
      fieldsOf([requestBody, responses], String(operationId)),
    );
    const all = [...parameters, ...bodies, ...fieldsOf(schemas)];
    expect(all.length).toBeGreaterThan(700);
    const told = all.map(({ path, schema }) => ({
      path,
      schema,
      text: descriptionOf(document, schema as Json),
    }));
    expect(told.filter(({ text }) => text === "").map(({ path }) => path)).toEqual([]);
    expect(
      told
        .filter(({ schema, text }) => isNumber(schema as Json) && !UNIT.test(text))
        .map(({ path, text }) => `${path}: ${text}`),
    ).toEqual([]);
  });

  it("answers JSON by a part that has a name, so that a generated client has one too", () => {
    const nameless = operations.flatMap(({ operationId, responses }) =>
      Object.values(responses as Record<string, { content?: Record<string, { schema?: Json }> }>).flatMap(
        ({ content }) => {
          const schema = content?.["application/json"]?.schema;
          return schema === undefined || "$ref" in schema || "anyOf" in schema ? [] : [String(operationId)];
        },
      ),
    );
    expect(nameless).toEqual([]);
  });
});

describe("every part", () => {
  it("is a JSON Schema whose references lead somewhere", () => {
    const at = validatorsOf(document);
    for (const name of Object.keys(schemas)) at(`/components/schemas/${name}`);
    expect(Object.keys(schemas).length).toBeGreaterThan(60);
    expect(Object.values(schemas).every(({ description }) => description)).toBe(true);
  });
});

describe("an answer of another shape", () => {
  const answers = { 200: { description: "roles", schema: z.object({ roles: z.array(z.string()) }) } };
  const one = { method: "get", path: "/roles", access: "open", summary: "Roles", answers } as const;

  it("does not compile", () => {
    const roles = ["third"];
    route({ ...one, handle: async () => ({ status: 200, json: { roles } }) });
    // @ts-expect-error a field by another name
    route({ ...one, handle: async () => ({ status: 200, json: { rolez: roles } }) });
    // @ts-expect-error numbers for words
    route({ ...one, handle: async () => ({ status: 200, json: { roles: [3] } }) });
    // @ts-expect-error a status that is not among the answers
    route({ ...one, handle: async () => ({ status: 201, json: { roles } }) });
    expect(roles).toHaveLength(1);
  });

  it("is noticed by every test that meets it", async () => {
    const server = createServer((_request, response) => {
      response.setHeader("content-type", "application/json").end('{"status":"ok","more":1}');
    });
    await new Promise<void>((done) => server.listen(0, "127.0.0.1", done));
    const url = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
    checkAnswersOf(url);
    await expect(fetch(`${url}/api/health`)).rejects.toThrow(/not published:\n.*additional.*more/s);
    await expect(fetch(`${url}/api/ready`)).rejects.toThrow(/store/);
    server.close();
  });
});
