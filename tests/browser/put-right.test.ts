import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import type { Analysis } from "../../src/account.ts";
import { violationsOf } from "./axe.ts";
import { hasChromium, openPage } from "./stage.ts";
import { staged } from "./staged.ts";

const ID = "tilda-week-8";

describe.skipIf(!hasChromium)("what is wrong is put right where it is seen", () => {
  const stage = staged();

  const account = async () =>
    (await (await fetch(`${stage.url}/api/takes/${ID}/analysis`)).json()) as Analysis;
  const press = (page: Page, name: string) =>
    page.locator(".correct").getByRole("button", { name, exact: true }).click();
  const undo = (page: Page) =>
    page.locator(".notice").getByRole("button", { name: "Undo", exact: true }).click();

  test("a note gets another finger, is a slip, is taken away; each comes back by Undo, and the place is kept", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    const before = await account();
    const note = before.notes.find((one) => one.solo && one.finger === 2)!;
    await page.goto(`${stage.url}/#/takes/${ID}?note=${note.id}&reading=hand`);
    await page.waitForSelector(".correct summary");
    await page.click(".correct summary");
    expect(await violationsOf(page)).toEqual([]);
    await press(page, "4");
    await page.waitForSelector(".notice:has-text('is played by the')");
    const fingered = (await account()).notes.find((one) => one.source === note.source)!;
    expect(fingered).toMatchObject({ finger: 4, fingerSource: "corrected" });
    // The reading and the selection are as they were.
    expect(page.url()).toContain("reading=hand");
    expect(await page.textContent(`.chorus-page [data-note="${note.id}"]`)).toBe("4");

    await page.click(".correct > details:first-child > summary");
    await press(page, "Not meant");
    await page.waitForSelector(".notice:has-text('is a slip')");
    expect((await account()).corrections).toMatchObject([{ note: note.source, finger: 4, meant: false }]);
    await page.click(".correct .so-far > summary");
    expect(await page.locator(".correct .so-far li").count()).toBe(1);

    // The way back of a visit: the last one first.
    await undo(page);
    await page.waitForSelector(".notice:has-text('as it was before')");
    expect((await account()).corrections).toMatchObject([{ note: note.source, finger: 4 }]);
    await page.waitForSelector(".undo-step:has-text('is played by the')");
    await page.click(".undo-step");
    await expect.poll(async () => (await account()).corrections).toEqual([]);
    await page.waitForSelector(".undo-step", { state: "hidden" });

    // Of several that are put right one is taken back, and the list stays unfolded for the next.
    await page.click(".correct > details:first-child > summary");
    await press(page, "4");
    await page.waitForSelector(".correct .so-far:not([open])");
    const other = (await account()).notes.find(
      (one) => one.solo && one.finger === 3 && one.spelling[0] !== note.spelling[0],
    )!;
    await page.goto(`${stage.url}/#/takes/${ID}?note=${other.id}&reading=hand`);
    await page.click(`.correct summary:has-text("Put ${other.spelling[0]}")`);
    await press(page, "5");
    await page.waitForSelector(".correct .so-far:has-text('two notes')");
    await page.click(".correct .so-far > summary");
    await page.click(".correct .so-far button >> nth=0");
    await page.waitForSelector(".correct .so-far[open]:has-text('one note')");
    await page.click(".correct .so-far button");
    await expect.poll(async () => (await account()).corrections).toEqual([]);
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("a chord is typed over, a wrong one is answered in words, and Undo brings the chart back", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    const before = await account();
    await page.goto(`${stage.url}/#/takes/${ID}?bar=1.5`);
    const field = page.locator('[name="bar-chords"]');
    await field.waitFor();
    await field.fill("Hello");
    await press(page, "Change");
    await expect.poll(() => page.textContent(".correct .hint")).toMatch(/Hello/);
    await field.fill("Bdim7");
    await press(page, "Change");
    await page.waitForSelector(".notice:has-text('Bar 5 is Bdim7')");
    expect((await account()).chart.bars[4]!.chords.map(({ symbol }) => symbol)).toEqual(["Bdim7"]);
    await undo(page);
    await page.waitForSelector(".notice:has-text('as it was before')");
    expect((await account()).chart.bars).toEqual(before.chart.bars);
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("the bars are put right by a click that is heard at once, and by Undo are where they were", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    const before = await account();
    const start = (analysis: Analysis, chorus: number, bar: number) =>
      analysis.alignment.bars.find((one) => one.chorus === chorus && one.bar === bar)!.start;
    await page.goto(`${stage.url}/#/takes/${ID}?bar=1.3`);
    await page.click(".glance > summary");
    await page.click(".glance >> text=The form begins one bar later");
    await page.waitForSelector(".glance-bar:has-text('now')", { timeout: 20_000 });
    expect(await violationsOf(page)).toEqual([]);
    await page.click(".glance >> text=Stop");
    const moved = await account();
    expect(start(moved, 1, 4)).toBeCloseTo(start(before, 1, 5), 1);
    expect(start(moved, 2, 4)).toBeCloseTo(start(before, 2, 5), 1);
    await undo(page);
    await page.waitForSelector(".notice:has-text('as it was before')");
    expect((await account()).alignment.bars).toEqual(before.alignment.bars);
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("a page that is long on its way opens at its top, whatever was cut short meanwhile", async () => {
    const { page, context } = await openPage(stage.browser, stage.url);
    await page.goto(`${stage.url}/#/takes/${ID}`);
    await page.waitForSelector("svg.chorus-page");
    await page.click("#line-told > summary");
    await page.evaluate(() => window.scrollTo(0, 420));
    await page.waitForFunction(() => history.state?.y === 420);
    let release = () => {};
    const held = new Promise<void>((resolve) => {
      release = resolve;
    });
    await page.route(/\/api\/shapes/, async (route) => {
      await held;
      await route.continue();
    });
    await page.evaluate(() => {
      addEventListener("scrollend", () => document.body.classList.add("scroll-ended"), { once: true });
      location.hash = "#/shapes";
    });
    await page.waitForSelector(".waiting");
    // The words "Reading …" are shorter than what stood there.
    await page.waitForSelector("body.scroll-ended");
    expect(await page.evaluate(() => window.scrollY)).toBeGreaterThan(0);
    release();
    await page.waitForSelector(".shape-card");
    expect(await page.evaluate(() => window.scrollY)).toBe(0);
    await context.close();
  });

  test("Back leads to where one was, in the reading and down the page; what is not there is said", async () => {
    const { page, context } = await openPage(stage.browser, stage.url);
    await page.goto(`${stage.url}/#/takes/${ID}?bar=1.4&reading=line`);
    await page.waitForSelector('svg.chorus-page[data-reading="line"]');
    await page.click("#line-told > summary");
    await page.evaluate(() => window.scrollTo(0, 420));
    await page.waitForFunction(() => history.state?.y === 420);
    await page.evaluate(() => {
      location.hash = "#/shapes";
    });
    await page.waitForSelector(".shape-card");
    expect(await page.evaluate(() => window.scrollY)).toBe(0);
    await page.goBack();
    await page.waitForSelector('svg.chorus-page[data-reading="line"]');
    await expect.poll(() => page.evaluate(() => window.scrollY)).toBeGreaterThan(300);
    expect(page.url()).toContain("bar=1.4");

    await page.goto(`${stage.url}/#/takes/${ID}?bar=17.1`);
    await page.waitForSelector(".reading:has-text('There is no such bar')");
    await page.click(".reading >> text=Show the whole take");
    await expect.poll(() => page.url()).not.toContain("bar=");
    await page.goto(`${stage.url}/#/nowhere`);
    await page.waitForSelector(".refusal:has-text('There is no page at this address')");
    await page.click("main >> text=All takes");
    await page.waitForSelector(".take-link");
    await context.close();
  });
});
