/** Feedback is not lost: in two windows at once, without a network, and when a window is closed in the middle. */
import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import type { Feedback } from "../../src/findings/lesson.ts";
import { violationsOf } from "./axe.ts";
import { hasChromium, openPage } from "./stage.ts";
import { staged } from "./staged.ts";

describe.skipIf(!hasChromium)("feedback of a take", () => {
  const stage = staged();
  const addressOf = (take: string) => `${stage.url}/#/takes/${take}/findings`;
  const onServer = async (take: string): Promise<Feedback> =>
    (await fetch(`${stage.url}/api/takes/${take}/feedback`)).json();
  const openAt = async (page: Page, take: string) => {
    await page.goto(addressOf(take));
    await page.waitForSelector(".findings .finding");
  };
  const addRemark = async (page: Page, text: string) => {
    await page.fill('[name="add-notice"]', text);
    await page.click(".kind-notice >> text=Add");
  };
  const isSaved = (page: Page) => expect.poll(() => page.textContent(".kept-state")).toBe("");

  test("of two windows keeps what each wrote, and shows both where they wrote one thing differently", async () => {
    const take = "bram-minor-blues";
    const { page: one, context, trouble } = await openPage(stage.browser, stage.url);
    const other = await context.newPage();
    await openAt(one, take);
    await openAt(other, take);
    await addRemark(one, "From the first window.");
    await one.fill('[name="own-view"]', "I heard the form.");
    await isSaved(one);
    await addRemark(other, "From the second window.");
    await isSaved(other);
    expect(await other.locator(".kind-notice .remark").count()).toBe(2);
    expect(await other.inputValue('[name="own-view"]')).toBe("I heard the form.");

    await one.fill('[name="signed"]', "M. Example");
    await one.fill('[name="own-view"]', "I lost bar nine.");
    await isSaved(one);
    await other.fill('[name="own-view"]', "I found bar nine again.");
    await other.waitForSelector(".differing");
    const told = await other.textContent(".differing");
    expect(told).toContain("I lost bar nine.");
    expect(told).toContain("I found bar nine again.");
    expect((await onServer(take)).own).toBe("I lost bar nine.");
    expect(await other.textContent(".kept-state")).toBe("Not saved yet.");
    expect(await violationsOf(other)).toEqual([]);
    await other.click(".differing >> text=Keep both");
    await isSaved(other);
    const stands = await onServer(take);
    expect(stands).toMatchObject({
      own: "I lost bar nine.\n\nI found bar nine again.",
      signed: "M. Example",
    });
    expect(stands.added.map(({ text }) => text)).toEqual([
      "From the first window.",
      "From the second window.",
    ]);
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("written while the network is cut stays “not saved” on every page, and is sent when it is back", async () => {
    const take = "maren-minor-blues";
    const { page, context } = await openPage(stage.browser, stage.url);
    await openAt(page, take);
    await context.setOffline(true);
    await addRemark(page, "Written in a cellar.");
    await page.waitForSelector(".not-kept-bar >> text=Not saved");
    await page.fill('[name="signed"]', "M. Example");
    await page.click("nav a:has-text('Shapes')");
    await page.waitForFunction(() => !location.hash.includes("findings"));
    expect(await page.textContent(".not-kept-bar")).toContain("is sent when the server is back");
    expect(await onServer(take)).toMatchObject({ added: [], signed: "" });
    await context.setOffline(false);
    await expect
      .poll(() => onServer(take))
      .toMatchObject({ added: [{ kind: "notice", text: "Written in a cellar." }], signed: "M. Example" });
    await expect.poll(() => page.textContent(".not-kept-bar")).not.toContain("Not saved");
    await context.close();
  });

  test("half written outlives a reload and the window; what was not sent is sent by the next window", async () => {
    const take = "tilda-week-4";
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    await openAt(page, take);
    await page.locator(".finding >> text=Reword").first().click();
    await page.fill('[aria-label="Your wording"]', "You leave ro");
    await page.fill('[name="add-notice"]', "Sit a litt");
    await page.reload();
    await page.waitForSelector('[aria-label="Your wording"]');
    expect(await page.inputValue('[aria-label="Your wording"]')).toBe("You leave ro");
    expect(await page.inputValue('[name="add-notice"]')).toBe("Sit a litt");

    await context.route(/\/feedback$/, (route) =>
      route.request().method() === "PUT" ? route.abort() : route.continue(),
    );
    await page.fill('[name="own-view"]', "I played it twice.");
    await page.waitForSelector(".not-kept-bar >> text=Not saved");
    await page.close();
    await context.unroute(/\/feedback$/);
    const next = await context.newPage();
    await next.goto(stage.url);
    await expect.poll(async () => (await onServer(take)).own).toBe("I played it twice.");
    await openAt(next, take);
    expect(await next.inputValue('[aria-label="Your wording"]')).toBe("You leave ro");
    await next.click("text=Keep this wording");
    await isSaved(next);
    expect(Object.values((await onServer(take)).edited)).toEqual(["You leave ro"]);
    expect(
      await next.evaluate(() => Object.keys(localStorage).filter((key) => /feedback/.test(key))),
    ).toHaveLength(1);
    expect(trouble.filter((words) => !words.includes("ERR_FAILED"))).toEqual([]);
    await context.close();
  });

  test("of a take that was deleted is kept nowhere in the browser", async () => {
    const take = "jonas-pickup";
    const { page, context } = await openPage(stage.browser, stage.url);
    const keysLeft = () =>
      page.evaluate(() => Object.keys(localStorage).filter((key) => key.includes("feedback")));
    await openAt(page, take);
    await page.fill('[name="add-notice"]', "Half a rem");
    await expect.poll(keysLeft).toHaveLength(1);
    await page.goto(`${stage.url}/#/shapes`);
    expect((await fetch(`${stage.url}/api/takes/${take}`, { method: "DELETE" })).ok).toBe(true);
    await page.reload();
    await expect.poll(keysLeft).toEqual([]);
    await context.close();
  });
});
