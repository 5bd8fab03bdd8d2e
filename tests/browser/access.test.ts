import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { violationsOf } from "./axe.ts";
import { PAGES_TO_SEE, seePage } from "./pages-to-see.ts";
import { buildPages, hasChromium, launch, openPage, type Served, serve, settled } from "./stage.ts";

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
      for (const [width, colorScheme] of [
        [1440, "light"],
        [1440, "dark"],
        [1024, "light"],
        [390, "light"],
      ] as const) {
        await page.emulateMedia({ colorScheme });
        await page.setViewportSize({ width, height: 900 });
        await settled(page);
        const violations = await violationsOf(page);
        expect(violations, `${view.name} at ${width}, ${colorScheme}`).toEqual([]);
        const wide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
        expect(wide, `${view.name} at ${width}`).toBeLessThanOrEqual(0);
      }
      expect(trouble).toEqual([]);
      await context.close();
    });
  }
});
