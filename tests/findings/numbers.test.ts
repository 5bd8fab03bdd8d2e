/** Every number of a rule is one of its threshold and `least`, or a constant with a name and its reason. */
import { readdirSync, readFileSync } from "node:fs";
import { parseSync } from "vite";
import { describe, expect, it } from "vitest";

const RULES = new URL("../../src/findings/rules/", import.meta.url);

/** Counting needs them: none, one, the next; two of a kind; and what makes a share a count for each hundred. */
const PLAIN = new Set([0, 1, 2, 100]);

interface Node {
  readonly type: string;
  readonly [key: string]: unknown;
}

describe("the rules' numbers", () => {
  const files = readdirSync(RULES, { recursive: true, encoding: "utf8" }).filter((file) =>
    file.endsWith(".ts"),
  );

  it.each(files)("%s has none without a name", (file) => {
    const { program } = parseSync(file, readFileSync(new URL(file, RULES), "utf8"));
    expect(bareNumbers(program as unknown as Node)).toEqual([]);
  });
});

/** Numbers in the bodies of functions that are neither plain nor rounding (`x * 2`, `toFixed(1)`). */
function bareNumbers(node: unknown, inFunction = false): number[] {
  if (Array.isArray(node)) return node.flatMap((one) => bareNumbers(one, inFunction));
  if (node === null || typeof node !== "object") return [];
  const { type, value } = node as Node;
  if (type === "Literal" && typeof value === "number") {
    return inFunction && !PLAIN.has(value) ? [value] : [];
  }
  const inside =
    inFunction ||
    type === "FunctionDeclaration" ||
    type === "ArrowFunctionExpression" ||
    type === "FunctionExpression";
  return Object.values(node).flatMap((part) => bareNumbers(part, inside));
}
