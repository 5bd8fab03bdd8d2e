import { existsSync, readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { ONCE_BROKEN } from "./once-broken.ts";

it.each(ONCE_BROKEN)("$was: its tests are there", ({ tests }) => {
  expect(tests.length).toBeGreaterThan(0);
  for (const named of tests) {
    const [file, name] = named.split(/: (.*)/s) as [string, string | undefined];
    const place = new URL(file, import.meta.url);
    expect([file, existsSync(place)]).toEqual([file, true]);
    const text = readFileSync(place, "utf8");
    expect([named, name === undefined || text.includes(JSON.stringify(name))]).toEqual([named, true]);
  }
});
