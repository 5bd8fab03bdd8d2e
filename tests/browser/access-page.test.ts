/** Tokens, links and the audit on their pages, as an owner uses them. */
import { describe, expect, test } from "vitest";
import { violationsOf } from "./axe.ts";
import { hasChromium, openPage } from "./stage.ts";
import { staged } from "./staged.ts";

describe.skipIf(!hasChromium)("who may see what", () => {
  const stage = staged();

  test("a teacher's token is made, changed, ended and forgotten, and the audit tells of it", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    await page.goto(`${stage.url}/#/access`);
    await page.waitForSelector(".token-maker");
    expect(await page.isDisabled(".token-maker button.main")).toBe(true);
    await page.fill("[name=token-name]", "Tuesday");
    await page.check('.token-maker [name=reaches][value="tilda"]');
    await page.click(".token-maker button.main");
    const token = await page.inputValue(".share-address");
    expect(token.length).toBeGreaterThan(20);
    const row = page.locator(".token-list li:has-text('Tuesday')");
    expect(await row.textContent()).toContain("Teacher: Tilda");

    await row.locator("text=Change what it reaches").click();
    await row.locator('[name=reaches][value="jonas"]').check();
    await row.locator("[name=most-takes]").fill("12");
    await row.locator("text=Keep it").click();
    await page.waitForSelector(".token-list li:has-text('of at most 12')");
    expect(await row.textContent()).toContain("Tilda, Jonas");

    await page.selectOption("[name=seen-player]", "jonas");
    await page.waitForSelector(".reach-list li");
    expect(await page.textContent(".reach-list")).toMatch(/Tuesday \(teacher\):.*to change/s);
    expect(await violationsOf(page)).toEqual([]);

    await row.locator("text=End it").click();
    await row.locator("text=Yes, end it").click();
    await page.waitForSelector("text=What has ended (1)");
    expect(await page.locator("#tokens .empty").count()).toBe(1);
    await page.waitForSelector("#one-player .empty");
    await page.click("text=What has ended (1)");
    await page.click('[aria-label="Forget it: Tuesday"]');
    await page.waitForSelector("summary:has-text('What has ended')", { state: "detached" });

    await page.click("text=Who read and wrote what");
    await page.waitForSelector(".audit-table tbody tr");
    expect(await page.textContent(".audit-table")).toContain("End a token");
    await page.selectOption("[name=audit-about]", "jonas");
    await page.waitForSelector(".audit-table tbody tr");
    const about = await page.locator(".audit-table tbody td:nth-child(4) a").allTextContents();
    expect([...new Set(about)]).toEqual(["Jonas"]);
    expect(page.url()).toContain("about=jonas");
    expect(await violationsOf(page)).toEqual([]);
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("a player's page says who may see that player", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    await page.goto(`${stage.url}/#/players/maren`);
    await page.click(".reach-panel > summary");
    await page.waitForSelector(".reach-panel .empty");
    await page.evaluate(() =>
      fetch("/api/takes/maren-rubato/shares", {
        method: "POST",
        headers: { "content-type": "application/json" },
        body: '{"name":"For the lesson"}',
      }),
    );
    await page.click(".reach-panel > summary");
    await page.click(".reach-panel > summary");
    await page.waitForSelector(".reach-list li");
    expect(await page.textContent(".reach-list")).toMatch(
      /For the lesson \(link to a take\): 1 of \d takes, to read/,
    );
    expect(trouble).toEqual([]);
    await context.close();
  });
});
