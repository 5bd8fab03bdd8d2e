import { describe, expect, test } from "vitest";
import { violationsOf } from "./axe.ts";
import { FOR_EVERYONE, forEveryone, overhang } from "./for-everyone.ts";
import { PAGES_TO_SEE, seePage } from "./pages-to-see.ts";
import { hasChromium, openPage, settled } from "./stage.ts";
import { staged } from "./staged.ts";

describe.skipIf(!hasChromium)("every page, for everyone", () => {
  const stage = staged();
  const isForEveryone = forEveryone(stage);

  // Two at a time: nobody changes anything there, and what is looked for takes a core a page.
  describe.concurrent("as it opens", () => {
    for (const view of PAGES_TO_SEE.filter(({ act }) => act === undefined)) {
      test(`${view.name}: ${FOR_EVERYONE}`, () => isForEveryone(view));
    }
  });
  // What is folded says as much as what is open, and is read by as many.
  describe("with every fold opened", () => {
    const named = /^(take-note|take-read-(line|ideas|time)|compare|search-found|placements)$/;
    for (const view of PAGES_TO_SEE.filter(({ name }) => named.test(name))) {
      test(`${view.name}: no violation on a desk and on a phone, nothing wider than the window`, async () => {
        const { page, context, trouble } = await openPage(stage.browser, stage.url);
        await seePage(page, stage.url, view);
        await page.evaluate(() => {
          for (const fold of document.querySelectorAll<HTMLDetailsElement>("main details")) fold.open = true;
        });
        for (const width of [1440, 390]) {
          await page.setViewportSize({ width, height: 900 });
          await settled(page);
          expect(await violationsOf(page), `${view.name} at ${width}`).toEqual([]);
          expect(await overhang(page), `${view.name} at ${width}`).toBeLessThanOrEqual(0);
        }
        expect(trouble).toEqual([]);
        await context.close();
      });
    }
  });
  test("a take of two choruses takes at most two screens of a desk in every reading", async () => {
    const { page, context } = await openPage(stage.browser, stage.url, { width: 1440, height: 900 });
    for (const view of PAGES_TO_SEE.filter(({ name }) => /^take(-read-\w+)?$/.test(name))) {
      await seePage(page, stage.url, view);
      await settled(page);
      const tall = await page.evaluate(() => document.documentElement.scrollHeight);
      expect(tall, view.name).toBeLessThanOrEqual(2 * 900);
    }
    await context.close();
  });
});
