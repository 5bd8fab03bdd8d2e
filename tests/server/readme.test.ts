/** What the README has a reader type prints what the service itself says. */
import { execFile } from "node:child_process";
import { readFileSync } from "node:fs";
import { promisify } from "node:util";
import { afterAll, beforeAll, expect, it } from "vitest";
import type { RunningServer } from "../../server/start.ts";
import { callsTo } from "./calls.ts";
import { serve } from "./harness.ts";

let server: RunningServer;
const { json, corpus, fill, ended } = callsTo(() => server);
const file = (path: string) => readFileSync(new URL(`../../${path}`, import.meta.url));

beforeAll(async () => {
  server = await serve();
});
afterAll(() => server.close());

it("the share of tensions by tag, from the table alone, is that of the summary", async () => {
  const readme = String(file("README.md"));
  const command = /# share of tensions by tag.*\n([^`]+)```/.exec(readme)![1]!;
  const manifest = /<<CSV\n(.*?)CSV\n/s.exec(readme)![1]!;
  const names = [...manifest.matchAll(/^tilda.*?\.mid/gm)].map(([name]) => name);
  const id = await corpus("Evening class");
  const files = Object.fromEntries(names.map((name) => [name, file(`corpus/takes/${name}`)]));
  expect(await ended((await fill(id, files, { manifest })).id)).toMatchObject({ done: 3, failed: 0 });
  const env = { ...process.env, A: `${server.url}/api`, C: id };
  const { stdout } = await promisify(execFile)("bash", ["-c", command], { env });
  const printed = Object.fromEntries(
    stdout
      .trim()
      .split("\n")
      .map((line) => line.split(" ")),
  );
  const { groups } = (await json(`/corpora/${id}/summary?by=tag`)) as {
    groups: { value: string; roles: Record<string, number> }[];
  };
  expect(Object.keys(printed).sort()).toEqual(["first", "last", "middle"]);
  for (const { value, roles } of groups) expect(Number(printed[value])).toBeCloseTo(roles.tension!, 3);
});
