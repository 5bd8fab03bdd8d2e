import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { routes } from "../../server/routes/index.ts";
import type { RunningServer } from "../../server/start.ts";
import { analysisSchema } from "../../src/account.ts";
import { accountJsonSchema } from "../../src/export/index.ts";
import { serve } from "./harness.ts";

let server: RunningServer;
beforeAll(async () => {
  server = await serve({ demo: true });
});
afterAll(() => server.close());

const documented = routes.filter((route) => route.example !== undefined);

describe("every documented example works on the demo corpus", () => {
  it.each(documented.map((route) => [`${route.method.toUpperCase()} ${route.path}`, route] as const))(
    "%s",
    async (_name, route) => {
      const example = route.example!;
      const path = route.path.replace(/:(\w+)/g, (_, name: string) => example.params![name]!);
      const query = new URLSearchParams(example.query ?? {}).toString();
      const response = await fetch(`${server.url}/api${path}${query === "" ? "" : `?${query}`}`, {
        method: route.method.toUpperCase(),
        ...(example.body === undefined
          ? {}
          : { body: JSON.stringify(example.body), headers: { "content-type": "application/json" } }),
      });
      const answer = route.answers[response.status];
      expect(answer, `answered ${response.status}: ${await response.clone().text()}`).toBeDefined();
      if (answer!.schema !== undefined)
        expect(answer!.schema.safeParse(await response.json()).error).toBeUndefined();
      else expect((await response.arrayBuffer()).byteLength).toBeGreaterThan(0);
    },
  );

  it("reading routes without parameters, and those of a take, all have an example", () => {
    const without = routes.filter(
      (route) =>
        route.method === "get" && route.example === undefined && /^\/(takes\/:id|\w+$)/.test(route.path),
    );
    expect(without.map((route) => route.path)).toEqual([]);
  });
});

describe("the account's schema", () => {
  it("accepts the account of every demo take, as a type and as published JSON Schema", async () => {
    const { takes } = await (await fetch(`${server.url}/api/takes`)).json();
    const schema = accountJsonSchema() as { properties: Record<string, unknown>; required: string[] };
    expect(takes.length).toBeGreaterThanOrEqual(12);
    for (const take of takes) {
      const account = await (await fetch(`${server.url}/api/takes/${take.id}/analysis`)).json();
      analysisSchema.parse(account);
      for (const name of schema.required) expect(account).toHaveProperty(name);
    }
  });

  it("no solo note of a demo take is without degree, role, line role and sentence", async () => {
    const { takes } = await (await fetch(`${server.url}/api/takes`)).json();
    for (const take of takes) {
      const { notes } = analysisSchema.parse(
        await (await fetch(`${server.url}/api/takes/${take.id}/analysis`)).json(),
      );
      for (const note of notes.filter((one) => one.solo)) {
        expect([note.degree, note.role, note.lineRole]).not.toContain(null);
        expect(note.account.length).toBeGreaterThan(10);
      }
    }
  });
});
