/**
 * What the pages take an answer for is inferred from the schema that its route publishes: no page declares a shape of
 * the service by hand, and none reads the answer of one route by the shape of another.
 */
import { fileURLToPath } from "node:url";
import { expect, it } from "vitest";
import { operationId } from "../../server/openapi.ts";
import { answerNameOf, pageReads, publishedNameOf } from "./page-reads.ts";

const ROOT = fileURLToPath(new URL("../..", import.meta.url));
const reads = pageReads(ROOT);

/** One of ours by its place, or rows of one in a field: "{ takes: TakeRow[] }". */
const NAMED = /^import\("([^"]+)"\)\.(\w+)$/;
const ROWS = /^\{ (\w+): (?:readonly )?import\("([^"]+)"\)\.(\w+)\[\];?/;

it("every answer is read by the shape that its route publishes", () => {
  const wrong: string[] = [];
  let told = 0;
  for (const { file, type, asked } of reads) {
    const [, field, from, name] = ROWS.exec(type) ?? ["", undefined, ...(NAMED.exec(type)?.slice(1) ?? [])];
    for (const route of asked) {
      // Two takes are answered otherwise than many, and the page knows which it asked for.
      if (operationId(route) === "getCompare") continue;
      told++;
      const published = answerNameOf(route, field);
      const read = from === undefined ? null : publishedNameOf(from, name!);
      if (published === undefined || read !== published)
        wrong.push(`${file}: ${operationId(route)} answers ${published}, read as ${read} (${type})`);
    }
  }
  expect(wrong).toEqual([]);
  expect(told).toBeGreaterThan(45);
});

it("few answers are read at an address that is handed in, where this cannot be told", () => {
  expect(reads.filter(({ asked }) => asked.length === 0).length).toBeLessThan(10);
});
