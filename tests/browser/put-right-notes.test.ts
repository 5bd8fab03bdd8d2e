/** A walk through all that can be put right of single notes, one after the other, and back again. */
import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import type { Analysis } from "../../src/account.ts";
import { hasChromium, openPage } from "./stage.ts";
import { staged } from "./staged.ts";

const ID = "tilda-week-8";

describe.skipIf(!hasChromium)("single notes are put right on the page", () => {
  const stage = staged();

  const account = async () =>
    (await (await fetch(`${stage.url}/api/takes/${ID}/analysis`)).json()) as Analysis;
  const press = (page: Page, name: string) =>
    page.locator(".correct").getByRole("button", { name, exact: true }).click();
  const open = async (page: Page, note: string) => {
    await page.goto(`${stage.url}/#/takes/${ID}?note=${note}&reading=hand`);
    await page.waitForSelector(".correct > details:first-child > summary");
    const menu = page.locator(".correct > details:first-child");
    if ((await menu.getAttribute("open")) === null) await menu.locator("summary").click();
  };
  const undo = async (page: Page) => {
    await page.locator(".notice").getByRole("button", { name: "Undo", exact: true }).click();
    await page.waitForSelector(".notice:has-text('as it was before')");
    await expect.poll(async () => (await account()).corrections).toEqual([]);
  };

  test("to the other hand, to another key, added to and taken away; each goes back by Undo", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    const before = await account();
    const note = before.notes.filter(({ solo }) => solo)[5]!;
    const same = (analysis: Analysis) => analysis.notes.find(({ source }) => source === note.source);

    await open(page, note.id);
    await press(page, `It was the ${note.hand === "right" ? "left" : "right"} hand`);
    await page.waitForSelector(".notice:has-text('belongs to the')");
    expect(same(await account())?.hand).not.toBe(note.hand);
    await undo(page);

    await open(page, note.id);
    await page.locator('.correct [aria-label="Key"] button').nth(3).click();
    await page.waitForSelector(".notice:has-text('is put right to')");
    expect(same(await account())?.pitch).toBe(note.pitch + 1);
    await undo(page);

    await open(page, note.id);
    await page.selectOption('.correct [name="added-key"]', String(note.pitch + 4));
    await page.selectOption('.correct [name="added-place"]', "with");
    await press(page, "Add it");
    await page.waitForSelector(".notice:has-text('is added with')");
    const added = (await account()).notes.filter(({ source }) => source === "added-1");
    expect(added).toMatchObject([{ pitch: note.pitch + 4, hand: note.hand }]);
    await undo(page);

    await open(page, note.id);
    await press(page, "Remove it");
    await page.waitForSelector(".notice:has-text('is taken away')");
    expect(same(await account())).toBeUndefined();
    await undo(page);

    const after = await account();
    expect(after.notes.map(({ source, pitch, hand, finger }) => [source, pitch, hand, finger])).toEqual(
      before.notes.map(({ source, pitch, hand, finger }) => [source, pitch, hand, finger]),
    );
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("the notice of care for the hand stands once where the account has it, and nowhere else", async () => {
    const { page, context } = await openPage(stage.browser, stage.url);
    const { takes } = (await (await fetch(`${stage.url}/api/takes`)).json()) as { takes: { id: string }[] };
    expect(takes.length).toBeGreaterThan(3);
    for (const { id } of takes.slice(0, 4)) {
      const { handFit } = (await (await fetch(`${stage.url}/api/takes/${id}/analysis`)).json()) as Analysis;
      await page.goto(`${stage.url}/#/takes/${id}?reading=hand`);
      await page.waitForSelector("#hand-told", { state: "attached" });
      expect(await page.locator(".caution").count(), id).toBe(handFit.caution === null ? 0 : 1);
    }
    await context.close();
  });
});
