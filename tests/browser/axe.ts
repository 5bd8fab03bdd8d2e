/** What axe finds on a page, by the rules of WCAG 2.0 to 2.2, levels A and AA, and its best practices. */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { Page } from "playwright-core";

const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

const RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];

export async function violationsOf(page: Page): Promise<string[]> {
  // Given to the debugger, not to the page, so that the security policy stays as it is.
  await page.evaluate(AXE);
  return page.evaluate(async (values) => {
    const axe = (window as unknown as { axe: typeof import("axe-core") }).axe;
    const result = await axe.run(document, {
      runOnly: { type: "tag", values },
      // What passes is not told one by one: on the page of a take these are thousands.
      resultTypes: ["violations"],
    });
    return result.violations.flatMap((violation) =>
      violation.nodes
        .slice(0, 3)
        .map((node) => `${violation.id}: ${node.target.join(" ")} ${node.failureSummary}`),
    );
  }, RULES);
}
