/** A lesson without a take, prepared, heard, handed out and seen on the player's page. */
import { describe, expect, test } from "vitest";
import { violationsOf } from "./axe.ts";
import { type Keyboards, plugKeyboards } from "./keyboards.ts";
import { hasChromium, openPage } from "./stage.ts";
import { staged } from "./staged.ts";

declare const window: Window & { keyboards: Keyboards };

describe.skipIf(!hasChromium)("a lesson without a take", () => {
  const stage = staged();

  test("is prepared, shown in another key, handed out, and waits on the player's page until it is taken back", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    await page.goto(`${stage.url}/#/lesson?form=blues-basic&key=F&lens=rests-and-answers&player=tilda`);
    await page.waitForSelector('[data-exercise="1"] .exercise-staff svg');
    expect(await page.textContent(".lesson-sheet h1")).toContain("in F");
    expect(await page.locator(".lesson-chord").count()).toBe(3);
    // The last one is for the student: twelve bars with chords and without a note.
    const own = page.locator(".exercise").last();
    await own.locator(".exercise-staff svg.engraved").waitFor();
    expect(await own.locator("g.note").count()).toBe(0);
    expect(await violationsOf(page)).toEqual([]);

    await page.selectOption('[name="in-key"]', "Bb");
    await page.waitForSelector(".lesson-sheet h1:has-text('in B♭')");
    await page.waitForSelector('[data-exercise="1"] .exercise-staff svg');
    expect(await page.getAttribute('[data-exercise="1"] a[download]', "href")).toContain("inKey=Bb");

    expect(await page.isChecked('[name="hand-to"] >> nth=0')).toBe(false);
    await page.click(".hand-out button.main");
    await page.waitForSelector(".hand-out [role=status] a");
    expect(await page.textContent(".hand-out [role=status]")).toContain("Handed out to Tilda");
    await page.click(".hand-out [role=status] a");
    const waits = page.locator('.handed-lessons [data-state="waits"]');
    await waits.waitFor();
    expect(await violationsOf(page)).toEqual([]);
    await waits.locator("a").first().click();
    await page.waitForSelector('[data-exercise="1"] .exercise-staff svg');
    expect(await page.textContent(".lesson-sheet h1")).toContain("in B♭");
    await page.goBack();
    await waits.locator("button").click();
    await expect.poll(() => page.locator(".handed-lessons li").count()).toBe(0);
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("keeps over a reload who is to get it and when, and what is half written on a player's page", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    await plugKeyboards(page, ["Stage piano"]);
    await page.goto(`${stage.url}/#/lesson?form=blues-basic&key=F`);
    await page.waitForSelector('[data-exercise="1"] .exercise-staff svg');
    await page.check("label:has-text('Jonas') [name=hand-to]");
    await page.fill('[name="handed-on"]', "2026-12-24");
    await page.reload();
    await page.waitForSelector('[data-exercise="1"] .exercise-staff svg');
    expect(await page.isChecked("label:has-text('Jonas') [name=hand-to]")).toBe(true);
    expect(await page.inputValue('[name="handed-on"]')).toBe("2026-12-24");

    // As on a practice sheet the right pedal turns on and the left one back: controllers 64 and 67 (MIDI 1.0).
    await page.click("text=Turn pages by foot");
    await page.waitForSelector(".page-turner [role=status]:has-text('Stage piano')");
    await page.evaluate(() => {
      window.scrollTo(0, 0);
      window.keyboards.send("Stage piano", [0xb0, 64, 127], performance.now());
    });
    await expect.poll(() => page.evaluate(() => window.scrollY)).toBeGreaterThan(0);
    await page.evaluate(() => window.keyboards.send("Stage piano", [0xb0, 67, 127], performance.now()));
    await expect.poll(() => page.evaluate(() => window.scrollY)).toBe(0);

    await page.goto(`${stage.url}/#/players/jonas`);
    const notes = page.locator(".player-fold:has(> summary:has-text('Notes for the parents'))");
    await notes.locator("summary").click();
    await page.fill('[name="note"]', "A good week");
    expect(await notes.locator("summary").textContent()).toContain("not kept yet");
    await page.reload();
    await page.waitForSelector('.player-fold[open] [name="note"]');
    expect(await page.inputValue('[name="note"]')).toBe("A good week");
    expect(await violationsOf(page)).toEqual([]);
    await page.click("text=Keep the note");
    await page.waitForSelector("summary:has-text('Notes for the parents (1)')");
    await page.reload();
    await page.waitForSelector(".player-fold");
    expect(await page.inputValue('[name="note"]')).toBe("");
    expect(await page.locator(".not-sent").count()).toBe(0);
    expect(trouble).toEqual([]);
    await context.close();
  });
});
