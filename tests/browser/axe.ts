/** What axe finds on a page, by the rules of WCAG 2.0 to 2.2, levels A and AA, and its best practices. */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { Page } from "playwright-core";

const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

const RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];

/** Violations of all rules, or of the rules named by `only`: colours change nothing but contrast. */
export async function violationsOf(page: Page, only?: readonly string[]): Promise<string[]> {
  // Given to the debugger, not to the page, so that the security policy stays as it is.
  await page.evaluate(AXE);
  const runOnly =
    only === undefined
      ? { type: "tag" as const, values: RULES }
      : { type: "rule" as const, values: [...only] };
  return page.evaluate(async (chosen) => {
    const axe = (window as unknown as { axe: typeof import("axe-core") }).axe;
    // What passes is not told one by one: on the page of a take these are thousands.
    const result = await axe.run(document, { runOnly: chosen, resultTypes: ["violations"] });
    return result.violations.flatMap((violation) =>
      violation.nodes
        .slice(0, 3)
        .map((node) => `${violation.id}: ${node.target.join(" ")} ${node.failureSummary}`),
    );
  }, runOnly);
}
