import { describe, expect, test } from "vitest";
import { FOR_EVERYONE, forEveryone } from "./for-everyone.ts";
import { PAGES_TO_SEE, seePage } from "./pages-to-see.ts";
import { hasChromium, openPage, settled } from "./stage.ts";
import { staged } from "./staged.ts";

describe.skipIf(!hasChromium)("every page, for everyone", () => {
  const stage = staged();
  const isForEveryone = forEveryone(stage);

  // What is folded says as much as what is open, and is read by as many.
  const unfolded = /^(take-note|take-read-(line|ideas|time)|compare|search-found|placements)$/;
  // Two at a time: nobody changes anything there, and what is looked for takes a core a page.
  describe.concurrent("as it opens", () => {
    for (const view of PAGES_TO_SEE.filter(({ act }) => act === undefined)) {
      const isUnfolded = unfolded.test(view.name);
      test(`${view.name}${isUnfolded ? ", every fold opened" : ""}: ${FOR_EVERYONE}`, () =>
        isForEveryone(view, isUnfolded));
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
