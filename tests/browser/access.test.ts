import type { Page } from "playwright-core";
import { afterAll, describe, expect, test } from "vitest";
import { violationsOf } from "./axe.ts";
import { PAGES_TO_SEE, type PageToSee, seePage } from "./pages-to-see.ts";
import { hasChromium, openPage, settled, type Watched } from "./stage.ts";
import { type Stage, staged } from "./staged.ts";

const FOR_EVERYONE =
  "no violation on a desk and in the dark on a phone, nothing wider than the window, no request elsewhere";

describe.skipIf(!hasChromium)("every page, for everyone", () => {
  const stage = staged();
  // A browser that has fetched and compiled the scripts once opens the next page for half the work.
  const atRest: Watched[] = [];
  afterAll(() => Promise.all(atRest.map(({ context }) => context.close())));

  // Two at a time: nobody changes anything there, and what is looked for takes a core a page.
  describe.concurrent("as it opens", () => {
    for (const view of PAGES_TO_SEE.filter(({ act }) => act === undefined)) {
      test(`${view.name}: ${FOR_EVERYONE}`, async () => {
        const watched = atRest.pop() ?? (await openPage(stage.browser, stage.url));
        await isForEveryone(watched, stage, view);
        await leave(watched, stage);
        atRest.push(watched);
      });
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
  describe("after a user's first steps", () => {
    for (const view of PAGES_TO_SEE.filter(({ act }) => act !== undefined)) {
      test(`${view.name}: ${FOR_EVERYONE}`, async () => {
        const watched = atRest.pop() ?? (await openPage(stage.browser, stage.url));
        await isForEveryone(watched, stage, view);
        await leave(watched, stage);
        atRest.push(watched);
      });
    }
  });
});

async function isForEveryone({ page, trouble }: Watched, stage: Stage, view: PageToSee): Promise<void> {
  await page.setViewportSize({ width: 1440, height: 900 });
  await page.emulateMedia({ colorScheme: "light" });
  await seePage(page, stage.url, view);
  // Each arrangement and each set of colours once: what lies between has the elements of one and the colours of the other.
  for (const [width, colorScheme] of [
    [1440, "light"],
    [390, "dark"],
  ] as const) {
    await page.emulateMedia({ colorScheme });
    await page.setViewportSize({ width, height: 900 });
    await settled(page);
    expect(await violationsOf(page), `${view.name} at ${width}, ${colorScheme}`).toEqual([]);
    expect(await overhang(page), `${view.name} at ${width}`).toBeLessThanOrEqual(0);
    if (width === 390) expect(await smallOnPhone(page), view.name).toEqual([]);
  }
  await page.setViewportSize({ width: 1024, height: 900 });
  await settled(page);
  expect(await overhang(page), `${view.name} at 1024`).toBeLessThanOrEqual(0);
  expect(trouble).toEqual([]);
}

/** Leaves the page, and nothing behind that the next one could find. */
async function leave({ page, context }: Watched, { url }: Stage): Promise<void> {
  await page.evaluate(() => sessionStorage.clear());
  await page.goto("about:blank");
  const browser = await context.newCDPSession(page);
  const storageTypes = "local_storage,indexeddb,cache_storage";
  await browser.send("Storage.clearDataForOrigin", { origin: url, storageTypes });
  await browser.detach();
}

/** Pixels by which the page is wider than its window. */
function overhang(page: Page): Promise<number> {
  return page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
}

/**
 * What a phone shows badly: words smaller than nine pixels in pictures, buttons for a page's main purpose that a thumb
 * misses (44 pixels: WCAG 2.2, 2.5.5), and sheets that what is on them does not fit.
 */
function smallOnPhone(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const shown = (selector: string) =>
      [...document.querySelectorAll<HTMLElement>(selector)].filter((one) => one.checkVisibility());
    const buttons = shown(":is(button, .button).main")
      .filter((one) => one.getBoundingClientRect().height < 44)
      .map((one) => `button ${one.textContent}`);
    const sheets = shown(".sheet, .practice-sheet, .view")
      .filter((one) => one.scrollWidth > one.clientWidth + 1)
      .map((one) => `sheet ${one.className} ${one.querySelector("h1, h2")?.textContent}`);
    const words = [...document.querySelectorAll<SVGTextElement>("main svg text")]
      .filter((one) => one.closest(".engraved") === null && one.checkVisibility())
      .filter(
        (one) => Math.round(Number.parseFloat(getComputedStyle(one).fontSize) * one.getScreenCTM()!.a) < 9,
      )
      .map((one) => `words ${one.textContent}`);
    return [...new Set([...buttons, ...sheets, ...words])];
  });
}
