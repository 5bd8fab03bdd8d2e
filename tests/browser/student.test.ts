/** A student's page behind a link: made on the player's page, opened, own view first, a lesson played from. */
import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { violationsOf } from "./axe.ts";
import { hasChromium, openPage } from "./stage.ts";
import { staged } from "./staged.ts";

describe.skipIf(!hasChromium)("a student's own page", () => {
  const stage = staged();

  test("is opened by a link, asks for the own view before a take is read, and keeps what is half written", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    await page.goto(`${stage.url}/#/players/jonas`);
    const links = page.locator(".handed-lessons .share-panel");
    await links.locator("summary").click();
    await links.locator('[name="share-name"]').fill("Jonas");
    await links.locator('button:has-text("Make a link")').click();
    const address = await links.locator(".share-address").inputValue();
    await page.goto(address);
    await page.waitForSelector(".student-takes a");
    expect(page.url()).toContain("#/students/jonas");
    expect(await page.isHidden("header nav")).toBe(true);
    expect(await page.textContent("main")).not.toMatch(/Tilda|Bram|Maren/);
    expect(await violationsOf(page)).toEqual([]);

    await page.click(".student-takes a >> nth=0");
    await page.waitForSelector(".own-view textarea");
    expect(await page.locator(".chorus-page").count()).toBe(0);
    await page.fill(".own-view textarea", "The bridge rushed.");
    // The network is cut: nothing of it is lost, and the page says so.
    await context.setOffline(true);
    await page.click('button:has-text("Keep it")');
    await page.waitForSelector(".own-view .refusal");
    await page.reload().catch(() => {});
    await context.setOffline(false);
    await page.goto(address);
    await page.click(".student-takes a >> nth=0");
    await page.waitForSelector(".own-view textarea");
    expect(await page.inputValue(".own-view textarea")).toBe("The bridge rushed.");
    await page.click('button:has-text("Keep it")');
    await page.waitForSelector(".chorus-page");
    expect(await page.textContent(".own-view [role=status]")).toContain("Kept");
    expect(await page.locator(".own-view:visible").count()).toBe(1);
    expect(await violationsOf(page)).toEqual([]);

    // The sheet is played from where it stands, and leads back to the player's own pages alone.
    await page.click("text=Practice sheet, to play along with");
    await page.waitForSelector(".exercise .exercise-player button, .exercise button:has-text('Play')");
    const addresses = await page.$$eval(".practice-sheet a[href^='#']", (links) =>
      links.map((link) => link.getAttribute("href")!),
    );
    expect(addresses.filter((address) => !address.startsWith("#/students/jonas/"))).toEqual([]);
    expect(trouble.filter((line) => !/net::ERR_INTERNET_DISCONNECTED/.test(line))).toEqual([]);
    await context.close();
  });

  test("shows both own views where they were written in two windows at once, and keeps what is chosen", async () => {
    const { page: one, context, trouble } = await openPage(stage.browser, stage.url);
    const two = await context.newPage();
    for (const page of [one, two]) {
      await page.goto(`${stage.url}/#/students/tilda/takes/tilda-week-1`);
      await page.waitForSelector(".own-view textarea");
    }
    const keep = async (page: Page, text: string) => {
      await page.fill(".own-view textarea", text);
      await page.click('button:has-text("Keep it")');
    };
    await keep(one, "It swung.");
    await one.waitForSelector(".own-view [role=status]:has-text('Kept')");
    await keep(two, "I rushed.");
    await two.waitForSelector(".own-view .differing-one:has-text('It swung.')");
    expect(await two.inputValue(".own-view textarea")).toBe("I rushed.");
    expect(await violationsOf(two)).toEqual([]);
    await two.click("text=Keep both");
    await two.click('button:has-text("Keep it")');
    await two.waitForSelector(".own-view [role=status]:has-text('Kept')");
    const feedback = await (await fetch(`${stage.url}/api/takes/tilda-week-1/feedback`)).json();
    expect(feedback).toMatchObject({ own: "It swung.\n\nI rushed.", asked: true });
    expect(trouble).toEqual([]);
    await context.close();
  });
});
