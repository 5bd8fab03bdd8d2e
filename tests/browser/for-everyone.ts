/** What is asked of every page for everyone: no violation, nothing wider than the window, nothing too small, no request elsewhere. */

import type { Page } from "playwright-core";
import { afterAll, expect } from "vitest";
import { violationsOf } from "./axe.ts";
import { type PageToSee, seePage } from "./pages-to-see.ts";
import { openPage, settled, type Watched } from "./stage.ts";
import type { Stage } from "./staged.ts";

export const FOR_EVERYONE =
  "no violation on a desk and in the dark on a phone, nothing wider than the window, no request elsewhere";

/** Looks at one page after another, as many at a time as it is called for, and leaves the stage as it found it. */
export function forEveryone(stage: Stage): (view: PageToSee, unfolded?: boolean) => Promise<void> {
  // A browser that has fetched and compiled the scripts once opens the next page for half the work.
  const atRest: Watched[] = [];
  afterAll(() => Promise.all(atRest.map(({ context }) => context.close())));
  return async (view, unfolded = false) => {
    const watched = atRest.pop() ?? (await openPage(stage.browser, stage.url));
    await isForEveryone(watched, stage, view, unfolded);
    await leave(watched, stage);
    atRest.push(watched);
  };
}

/** On a desk in the light, then on a phone in the dark. */
export async function inBothArrangements(
  page: Page,
  look: (width: number, colorScheme: "light" | "dark") => Promise<void>,
): Promise<void> {
  for (const [width, colorScheme] of [
    [1440, "light"],
    [390, "dark"],
  ] as const) {
    await page.emulateMedia({ colorScheme });
    await page.setViewportSize({ width, height: 900 });
    await settled(page);
    await look(width, colorScheme);
  }
}

async function isForEveryone(
  { page, trouble }: Watched,
  stage: Stage,
  view: PageToSee,
  unfolded: boolean,
): Promise<void> {
  await page.setViewportSize({ width: 1440, height: 900 });
  await page.emulateMedia({ colorScheme: "light" });
  await seePage(page, stage.url, view);
  if (unfolded) await unfold(page, view);
  // Each arrangement and each set of colours once: what lies between has the elements of one and the colours of the other.
  await inBothArrangements(page, async (width, colorScheme) => {
    expect(await violationsOf(page), `${view.name} at ${width}, ${colorScheme}`).toEqual([]);
    expect(await overhang(page), `${view.name} at ${width}`).toBeLessThanOrEqual(0);
    if (width === 390) expect(await smallOnPhone(page), view.name).toEqual([]);
  });
  await page.setViewportSize({ width: 1024, height: 900 });
  await settled(page);
  expect(await overhang(page), `${view.name} at 1024`).toBeLessThanOrEqual(0);
  expect(trouble).toEqual([]);
}

/** Opens every fold: all that is to be seen of the page folded is to be seen then too, but for its width. */
async function unfold(page: Page, view: PageToSee): Promise<void> {
  for (const width of [390, 1024, 1440]) {
    await page.setViewportSize({ width, height: 900 });
    await settled(page);
    expect(await overhang(page), `${view.name}, folded, at ${width}`).toBeLessThanOrEqual(0);
  }
  await page.evaluate(() => {
    for (const fold of document.querySelectorAll<HTMLDetailsElement>("main details")) fold.open = true;
  });
}

/** Leaves the page, and nothing behind that the next one could find. */
async function leave({ page, context }: Watched, { url }: Stage): Promise<void> {
  await page.evaluate(() => sessionStorage.clear());
  // Of the same origin, so that what draws its pages is kept and need not begin anew: a fifth of all that a page takes.
  await page.goto(`${url}/api/health`);
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
