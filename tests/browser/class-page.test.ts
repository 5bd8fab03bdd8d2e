/** The first page: a class of any size, takes found by typing, the demo class put away, a file that is there already. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import type { TakePage } from "../../server/contract/takes.ts";
import { violationsOf } from "./axe.ts";
import { hasChromium, openPage } from "./stage.ts";
import { staged } from "./staged.ts";

const TAKES = join(import.meta.dirname, "../../corpus/takes");
const MANY = 10_000;

/** Answers lists of takes as a store of ten thousand does, made of a take that there is. */
async function withMany(page: Page, url: string): Promise<void> {
  const { takes } = (await (await fetch(`${url}/api/takes?limit=1`)).json()) as TakePage;
  const many = Array.from({ length: MANY }, (_, k) => ({
    ...takes[0]!,
    ...{ id: `many-${k}`, title: `Evening ${k}`, demo: false },
  }));
  await page.route(/\/api\/takes\?/, async (route) => {
    const query = new URL(route.request().url()).searchParams;
    const found = many.filter(({ title }) => title.toLowerCase().includes(query.get("q") ?? ""));
    const from = found.findIndex(({ id }) => id === query.get("after")) + 1;
    const shown = found.slice(from, from + Number(query.get("limit")));
    const next = from + shown.length < found.length ? shown.at(-1)!.id : null;
    await route.fulfill({ json: { takes: shown, total: found.length, next } });
  });
}

describe.skipIf(!hasChromium)("the first page", () => {
  const stage = staged();

  test("with ten thousand takes is no higher than with fifty, and shows players and the newest at once", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    await page.setViewportSize({ width: 1440, height: 900 });
    await withMany(page, stage.url);
    await page.goto(stage.url);
    await page.waitForSelector(".take-more");
    for (const first of [".player", ".take-link"]) {
      const box = (await page.locator(first).first().boundingBox())!;
      expect(box.y + box.height, first).toBeLessThan(900);
    }
    const height = () => page.evaluate(() => document.documentElement.scrollHeight);
    const before = await height();
    expect(before).toBeLessThan(2 * 900);
    expect(await page.locator(".take-link").count()).toBe(50);
    await page.click(".take-more");
    await expect.poll(() => page.locator(".take-link").count()).toBe(100);
    expect(await height()).toBe(before);
    expect(await page.textContent(".take-search [role=status]")).toContain("10,000 takes");

    await page.fill('[name="q"]', "evening 777");
    await expect.poll(() => page.locator(".take-link").count()).toBe(11);
    expect(await page.textContent(".take-search [role=status]")).toContain("eleven takes found");
    expect(await violationsOf(page)).toEqual([]);
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("puts the demo class away until it is asked for again", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    await page.goto(stage.url);
    await page.waitForSelector(".take-link");
    await page.click("button:has-text('Put the demo class away')");
    await expect.poll(() => page.locator(".take-link").count()).toBe(0);
    expect(await page.locator(".player").count()).toBe(0);
    await page.reload();
    await page.waitForSelector("button:has-text('Show the demo class')");
    expect(await page.locator(".take-link").count()).toBe(0);
    expect(await violationsOf(page)).toEqual([]);
    await page.click("button:has-text('Show the demo class')");
    await page.waitForSelector(".take-link");
    expect(await page.locator(".player").count()).toBeGreaterThan(0);
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("says of a file that is there already which take it is, before it is sent", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    await page.goto(stage.url);
    await page.waitForSelector(".take-link");
    const known = readFileSync(join(TAKES, "jonas-pickup.mid"));
    const changed = Buffer.from(known);
    changed[changed.length - 1]! ^= 1;
    await page.setInputFiles("#take-files", [
      { name: "kitchen.mid", mimeType: "audio/midi", buffer: known },
      { name: "new.mid", mimeType: "audio/midi", buffer: changed },
    ]);
    await page.waitForSelector('[data-file="0"] .known-file a');
    expect(await page.getAttribute(".known-file a", "href")).toBe("#/takes/jonas-pickup");
    expect(await page.textContent('[data-file="1"] .known-file')).toBe("");
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("moves, tags, deletes and brings back takes in numbers", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    await page.goto(stage.url);
    await page.fill('[name="q"]', "tilda");
    const found = ((await (await fetch(`${stage.url}/api/takes?q=tilda&limit=1`)).json()) as TakePage).total;
    await expect.poll(() => page.locator(".take-link").count()).toBe(found);
    expect(found).toBeGreaterThan(2);
    for (const at of [0, 1]) await page.locator('[name="chosen"]').nth(at).check();
    const ids = await page.$$eval('[name="chosen"]', (all) =>
      all.slice(0, 2).map((one) => (one as HTMLInputElement).value),
    );
    const players = () =>
      Promise.all(
        ids.map(async (id) => (await (await fetch(`${stage.url}/api/takes/${id}`)).json()).player as string),
      );
    expect(await violationsOf(page)).toEqual([]);
    await page.fill('[name="move"]', "Ottilie");
    await page.click("text=Move to");
    await page.waitForSelector(".notice >> text=Two takes are moved to Ottilie.");
    expect(await players()).toEqual(["Ottilie", "Ottilie"]);
    await page.waitForSelector(".player-name:text-is('Ottilie')");
    await page.click(".notice >> text=Undo");
    await expect.poll(players).toEqual(["Tilda", "Tilda"]);

    await expect.poll(() => page.locator(".take-link").count()).toBe(found);
    await page.check('[name="choose-shown"]');
    await page.fill('[name="tag"]', "summer");
    await page.click("text=Add the tag");
    await page.waitForSelector(".notice >> text=are tagged “summer”.");
    await page.fill('[name="q"]', "summer");
    await expect.poll(() => page.locator(".take-facts:has-text('summer')").count()).toBe(found);
    await page.check('[name="choose-shown"]');
    await page.click(".together >> text=/^Delete .* takes$/");
    await expect.poll(() => page.locator(".take-link").count()).toBe(0);
    await page.click(".notice >> text=Undo");
    await expect.poll(() => page.locator(".take-link").count()).toBe(found);
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("lists what was deleted with when it goes for good, and brings it back long after it was done", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    await page.goto(stage.url);
    await page.waitForSelector(".take-link");
    const found = await page.locator(".take-link").count();
    const name = await page.textContent(".take-link >> nth=0");
    await page.click(".take-rows button:has-text('Delete') >> nth=0");
    await page.waitForSelector(".deleted-lately summary");
    // The notice with its Undo is gone with the page.
    await page.reload();
    await page.waitForSelector(".deleted-lately summary:has-text('Deleted lately: one take')");
    expect(await page.locator(".take-link").count()).toBe(found - 1);
    await page.click(".deleted-lately summary");
    const row = page.locator(".deleted-lately li");
    expect(await row.textContent()).toMatch(/deleted at \d\d:\d\d · gone for good after \d\d:\d\d/);
    expect(await violationsOf(page)).toEqual([]);
    await page.click(`.deleted-lately button[aria-label="Restore ${name}"]`);
    await expect.poll(() => page.locator(".take-link").count()).toBe(found);
    await expect.poll(() => page.locator(".deleted-lately summary").count()).toBe(0);
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("keeps the fields of an upload over a reload, until it is sent", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    const choose = () => page.setInputFiles("#take-files", join(TAKES, "jonas-pickup.mid"));
    await page.goto(stage.url);
    await choose();
    await page.check('[name="chart-way"][value="text"]');
    await page.fill('[name="chart-text"]', "key: G\nG7 | C7");
    await page.fill('[name="title"]', "Half filled");
    await page.fill('[name="date"]', "2026-03-01");
    await page.click(".hand-slot summary");
    await page.selectOption('[name="hand-size"]', "small");
    await page.check('.shape-choices [value="third-and-steps"]');
    await page.reload();
    await choose();
    await page.waitForSelector('[name="hand-size"]');
    expect(await page.inputValue('[name="hand-size"]')).toBe("small");
    expect(await page.isChecked('.shape-choices [value="third-and-steps"]')).toBe(true);
    expect(await page.inputValue('[name="chart-text"]')).toBe("key: G\nG7 | C7");
    expect(await page.inputValue('[name="title"]')).toBe("Half filled");
    expect(await page.inputValue('[name="date"]')).toBe("2026-03-01");
    await page.click("button.main:has-text('Analyse')");
    await page.waitForSelector(".take-head h1:has-text('Half filled')");
    const id = /takes\/([^?]+)/.exec(page.url())![1];
    const { options } = await (await fetch(`${stage.url}/api/takes/${id}/analysis`)).json();
    expect(options).toMatchObject({ handSize: "small", shapes: ["third-and-steps"] });
    await page.goto(stage.url);
    await page.waitForSelector(".take-link");
    expect(await page.inputValue('[name="title"]')).toBe("");
    expect(await page.locator('[name="hand-size"]').count()).toBe(0);
    expect(trouble).toEqual([]);
    await context.close();
  });
});
