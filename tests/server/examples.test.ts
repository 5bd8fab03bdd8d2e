import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { routes } from "../../server/routes/index.ts";
import type { RunningServer } from "../../server/start.ts";
import { analysisSchema } from "../../src/account.ts";
import { serveDemo } from "./harness.ts";

let server: RunningServer;
beforeAll(async () => {
  server = await serveDemo();
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
      const answer = new Map(Object.entries(route.answers)).get(String(response.status));
      expect(answer, `answered ${response.status}: ${await response.clone().text()}`).toBeDefined();
      // Its shape is held against the published document, as that of every answer in these tests (harness.ts).
      expect((await response.arrayBuffer()).byteLength).toBeGreaterThan(0);
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

describe("the demo class", () => {
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
