import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { PAGES_TO_SEE, seePage } from "./pages-to-see.ts";
import { buildPages, hasChromium, launch, openPage, type Served, serve } from "./stage.ts";

const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

/** Rules of WCAG 2.0 to 2.2, levels A and AA, and axe's best practices. */
const RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];

describe.skipIf(!hasChromium)("every page, for everyone", () => {
  let browser: Browser;
  let server: Served;

  beforeAll(async () => {
    await buildPages();
    server = await serve();
    browser = await launch();
  });
  afterAll(async () => {
    await browser?.close();
    await server?.close();
  });

  for (const view of PAGES_TO_SEE) {
    test(`${view.name}: no violation at three widths and in the dark, nothing wider than the window, no request elsewhere`, async () => {
      const { page, context, trouble } = await openPage(browser, server.url);
      await seePage(page, server.url, view);
      // Given to the debugger, not to the page, so that the security policy stays as it is.
      await page.evaluate(AXE);
      for (const [width, colorScheme] of [
        [1440, "light"],
        [1440, "dark"],
        [1024, "light"],
        [390, "light"],
      ] as const) {
        await page.emulateMedia({ colorScheme });
        await page.setViewportSize({ width, height: 900 });
        await page.waitForTimeout(120);
        const violations = await page.evaluate(async (tags) => {
          const axe = (window as unknown as { axe: typeof import("axe-core") }).axe;
          const result = await axe.run(document, { runOnly: { type: "tag", values: tags } });
          return result.violations.flatMap((violation) =>
            violation.nodes
              .slice(0, 3)
              .map((node) => `${violation.id}: ${node.target.join(" ")} ${node.failureSummary}`),
          );
        }, RULES);
        expect(violations, `${view.name} at ${width}, ${colorScheme}`).toEqual([]);
        const wide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
        expect(wide, `${view.name} at ${width}`).toBeLessThanOrEqual(0);
      }
      expect(trouble).toEqual([]);
      await context.close();
    });
  }
});
