/** The list of `asvs.ts`: each named test exists, each item has a test or a reason; and those that stand nowhere else. */
import { readdirSync, readFileSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { RunningServer } from "../../server/start.ts";
import { ASVS } from "./asvs.ts";
import { callsTo, sent } from "./calls.ts";
import { ARPEGGIOS, FOUR_BARS, serve, smallMidi, takeForm } from "./harness.ts";

let server: RunningServer;
const { call, json, post } = callsTo(() => server);

beforeAll(async () => {
  server = await serve();
});
afterAll(() => server.close());

/** Source files below a folder of the project, as path and text. */
function sources(folder: string, ending: RegExp): [string, string][] {
  const root = new URL(`../../${folder}/`, import.meta.url);
  return readdirSync(root, { recursive: true })
    .map(String)
    .filter((name) => ending.test(name))
    .map((name) => [`${folder}/${name}`, readFileSync(new URL(name, root), "utf8")]);
}

describe("the list of security items", () => {
  it.each(ASVS.map((item) => [item.item, item] as const))(
    "%s has a test that exists, or a reason",
    (_item, item) => {
      expect((item.tests?.length ?? 0) > 0 || (item.reason ?? "").length > 10).toBe(true);
      for (const named of item.tests ?? []) {
        const [file, name] = named.split(/: (.*)/s) as [string, string];
        const text = readFileSync(new URL(file, import.meta.url), "utf8");
        expect([named, text.includes(JSON.stringify(name))]).toEqual([named, true]);
      }
    },
  );

  it("stands where developers look for it", () => {
    const text = readFileSync(new URL("../../DEVELOPERS.md", import.meta.url), "utf8");
    expect(text).toContain("tests/server/asvs.ts");
  });
});

describe("requests", () => {
  it("a parameter that is given twice is refused by its schema", async () => {
    expect((await call("/takes?player=a&player=b")).status).toBe(400);
  });

  it("fields that a request may not set are not set", async () => {
    const form = { chart: FOUR_BARS, title: "Plain", id: "mine", demo: "true", corpusId: "x", source: "x" };
    const { take } = await json("/takes", { method: "POST", body: takeForm(form, smallMidi(ARPEGGIOS)) });
    expect(take).toMatchObject({ title: "Plain", demo: false });
    expect(take.id).not.toBe("mine");
    const changed = await json(
      `/takes/${take.id}`,
      sent("PATCH", { demo: true, id: "other", analysis: "x" }),
    );
    expect(changed.take).toMatchObject({ id: take.id, demo: false });
    const made = await post("/tokens", { name: "n", role: "reader", scope: [take.id], hash: "x", id: "x" });
    expect(made.id).not.toBe("x");
  });

  it("a body of another type than the route takes is refused", async () => {
    for (const type of ["text/plain", "application/xml", "application/x-www-form-urlencoded"]) {
      const init = { method: "POST", headers: { "content-type": type }, body: '{"name":"x"}' };
      expect([type, (await call("/players", init)).status]).toEqual([type, 415]);
    }
    const json = await call("/takes", sent("POST", { chart: FOUR_BARS }));
    expect(json.status).toBe(400);
  });

  it("methods that are not in use are refused, and no other origin is let in", async () => {
    for (const method of ["PUT", "PATCH", "DELETE"])
      expect((await call("/forms", { method })).status).toBe(404);
    const preflight = await call("/takes", {
      method: "OPTIONS",
      headers: { origin: "https://elsewhere.example", "access-control-request-method": "POST" },
    });
    // Fetch standard: without these headings a browser gives other origins nothing.
    for (const heading of ["access-control-allow-origin", "access-control-allow-credentials"]) {
      expect(preflight.headers.get(heading)).toBeNull();
    }
  });

  it("a link leads to a take of this service and nowhere else", async () => {
    const { take } = await json("/takes", {
      method: "POST",
      body: takeForm({ chart: FOUR_BARS }, smallMidi(ARPEGGIOS)),
    });
    const share = await post(`/takes/${take.id}/shares`, { name: "//elsewhere.example" });
    const response = await fetch(`${server.url}${share.path}?to=https://elsewhere.example`, {
      redirect: "manual",
    });
    expect(response.status).toBe(303);
    expect(response.headers.get("location")).toBe(`/#/read/${take.id}`);
  });
});

describe("answers", () => {
  it("every kind of answer carries the headers of safety", async () => {
    const { take } = await json("/takes", {
      method: "POST",
      body: takeForm({ chart: FOUR_BARS }, smallMidi(ARPEGGIOS)),
    });
    for (const path of [
      "/api/takes",
      `/api/takes/${take.id}/source`,
      "/api/no",
      "/",
      "/no",
      "/api/openapi.json",
    ]) {
      const { headers } = await fetch(`${server.url}${path}`);
      expect([path, headers.get("x-content-type-options")]).toEqual([path, "nosniff"]);
      expect(headers.get("content-security-policy")).toContain("frame-ancestors 'none'");
      expect(headers.get("referrer-policy")).toBe("no-referrer");
      expect(headers.get("content-type")).not.toBeNull();
      for (const teller of ["x-powered-by", "server"])
        expect([path, headers.get(teller)]).toEqual([path, null]);
    }
  });
});

describe("the code", () => {
  it("no code is made of text at run time", () => {
    for (const [path, text] of [
      ...sources("server", /\.[jt]s$/),
      ...sources("src", /\.ts$/),
      ...sources("client", /\.ts$/),
    ]) {
      expect([path, /\beval\(|new Function\(|node:vm/.test(text)]).toEqual([path, false]);
    }
  });

  it("the service itself sends no requests", () => {
    for (const [path, text] of sources("server", /\.[jt]s$/)) {
      // The typed client, and the command that asks a running server for its store, are programs of users, not the service.
      if (path === "server/api-client.ts" || path === "server/backup/command.ts") continue;
      const asks = /\bfetch\(|node:https|http\.request|^import (?!type)[^\n]*from "(node:net|undici)"/m.test(
        text,
      );
      expect([path, asks]).toEqual([path, false]);
    }
  });

  it("only the building, the set-up of the store and of the pages, and the listener start processes; no input reaches their start", () => {
    const starting = [...sources("server", /\.[jt]s$/), ...sources("src", /\.ts$/)].filter(([, text]) =>
      text.includes("node:child_process"),
    );
    expect(starting.map(([path]) => path).sort()).toEqual([
      "server/build-library.ts",
      "server/build.ts",
      // A file of our own, without arguments: what is to be heard goes to it as a message.
      "server/listen/hearer.ts",
      "server/run.js",
      "server/standalone/assets.ts",
      "server/store/embedded.ts",
    ]);
  });

  it("the pages never make markup of text", () => {
    for (const [path, text] of sources("client", /\.ts$/)) {
      expect([
        path,
        /\.innerHTML|\.outerHTML|insertAdjacentHTML|document\.write|\.html\(/.test(text),
      ]).toEqual([path, false]);
    }
  });
});
