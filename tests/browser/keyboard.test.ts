import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { printedText } from "../../client/findings/finding-words.ts";
import type { Analysis } from "../../src/account.ts";
import { hasChromium, openPage } from "./stage.ts";
import { staged } from "./staged.ts";

const SOLO = readFileSync(join(import.meta.dirname, "../../corpus/takes/bram-quick-change.mid"));

/** Presses Tab (or Shift+Tab) until the focus is on what `selector` names; every stop on the way must be seen. */
async function tabTo(page: Page, selector: string, key: "Tab" | "Shift+Tab" = "Tab"): Promise<void> {
  for (let i = 0; i < 150; i++) {
    await page.keyboard.press(key);
    const at = await page.evaluate((wanted) => {
      const element = document.activeElement as HTMLElement | null;
      if (!element || element === document.body) return { there: false, seen: true, name: "page" };
      // A file field lies hidden under its label, which shows the focus.
      const shown = element.matches(".file-input")
        ? element.parentElement!.querySelector<HTMLElement>("label.button")!
        : element;
      const style = getComputedStyle(shown);
      const seen =
        (style.outlineStyle !== "none" && Number.parseFloat(style.outlineWidth) >= 1) ||
        style.strokeWidth === "3px";
      return { there: element.matches(wanted), seen, name: element.outerHTML.slice(0, 90) };
    }, selector);
    expect(at.seen, `the focus is seen on ${at.name}`).toBe(true);
    if (at.there) return;
  }
  throw new Error(`Tab does not come to ${selector}`);
}

describe.skipIf(!hasChromium)("the whole job by the keyboard alone", () => {
  const stage = staged();

  test("from a file to the printed practice sheet, with no pointer at all", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    await page.addInitScript(() => {
      Object.assign(window, { printed: 0 });
      window.print = () => {
        (window as unknown as { printed: number }).printed++;
      };
    });
    // Heard from the start: the browser's dialog is only held back while somebody listens.
    page.on("filechooser", (chooser) => {
      void chooser.setFiles({ name: "evening.mid", mimeType: "audio/midi", buffer: SOLO });
    });
    await page.goto(stage.url);
    await page.waitForSelector(".take-link");

    // A file, by the browser's own dialog.
    await tabTo(page, "#take-files");
    await page.keyboard.press("Enter");
    await page.waitForSelector(".add-details:not([hidden])");

    // Its chart: the form by its first letters, the key.
    await tabTo(page, '[name="form"]');
    await page.keyboard.type("12-bar blues with q");
    expect(await page.$eval('[name="form"]', (form) => (form as HTMLSelectElement).value)).toBe(
      "blues-quick-change",
    );
    await tabTo(page, '[name="player"]');
    await page.keyboard.type("Nora");
    await tabTo(page, ".add button.main");
    await page.keyboard.press("Enter");
    await page.waitForSelector(".reading");
    await page.waitForSelector(".chorus-page");
    const id = /takes\/([^?]+)/.exec(page.url())![1]!;
    const analysis = (await (await fetch(`${stage.url}/api/takes/${id}/analysis`)).json()) as Analysis;
    const solo = analysis.notes.filter((note) => note.solo);

    // A note of the first picture, and what it is.
    await page.keyboard.press("1");
    expect(await page.evaluate(() => document.activeElement?.closest(".view")?.id)).toBe("chorus-page");
    for (let i = 0; i < 3; i++) await page.keyboard.press("ArrowRight");
    expect(await page.textContent(".reading .sentence")).toBe(printedText(solo[2]!.account));
    expect(await page.textContent(".reading [aria-live]")).toContain(printedText(solo[2]!.account));

    // Its bar is played, and stops.
    await page.keyboard.press("b");
    await page.keyboard.press("Space");
    await expect.poll(() => page.textContent(".play"), { timeout: 20_000 }).toBe("Stop");
    await page.keyboard.press("Space");
    await expect.poll(() => page.textContent(".play")).toBe("Play");

    // The findings; one is reworded.
    await tabTo(page, "a[href$='/findings']", "Shift+Tab");
    await page.keyboard.press("Enter");
    await page.waitForSelector(".finding-tools");
    await tabTo(page, ".finding-tools button:nth-of-type(2)");
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe("Reword");
    await page.keyboard.press("Enter");
    await page.keyboard.press("Control+A");
    await page.keyboard.type("Well begun: hold on to it.");
    await tabTo(page, ".reword button");
    await page.keyboard.press("Enter");
    await page.waitForSelector(".finding-text:has-text('Well begun: hold on to it.')");

    // The practice sheet, printed.
    await tabTo(page, "a.button[href$='/practice']", "Shift+Tab");
    await page.keyboard.press("Enter");
    await page.waitForSelector(".exercise .engraved", { timeout: 40_000 });
    await tabTo(page, ".take-ways button.main");
    await page.keyboard.press("Enter");
    // The printer's window waits for the sheet to be engraved whole.
    await expect.poll(() => page.evaluate(() => (window as unknown as { printed: number }).printed)).toBe(1);
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("every command of the list does what it says, in a picture that has the focus", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    const id = "bram-quick-change";
    const analysis = (await (await fetch(`${stage.url}/api/takes/${id}/analysis`)).json()) as Analysis;
    const solo = analysis.notes.filter((note) => note.solo);
    await page.goto(`${stage.url}/#/takes/${id}`);
    await page.waitForSelector(".chorus-page");
    const query = () => page.url().split("?")[1] ?? "";
    const press = (key: string) => page.keyboard.press(key);

    await press("?");
    await page.waitForSelector("dialog.keys[open]");
    const listed = await page.$$eval("dialog.keys kbd", (keys) => keys.map((key) => key.textContent));
    expect(listed).toEqual(
      expect.arrayContaining([
        "?",
        "← →",
        "↑ ↓",
        "Home, End",
        "B",
        "V",
        "C",
        "H",
        "P",
        "M",
        "Space",
        "Escape",
      ]),
    );
    await press("Escape");
    await expect.poll(() => page.locator("dialog.keys").count()).toBe(0);

    await press("1");
    await press("End");
    await expect.poll(query, { timeout: 10_000 }).toBe(`note=${solo.at(-1)!.id}`);
    await press("Home");
    await expect.poll(query, { timeout: 10_000 }).toBe(`note=${solo[0]!.id}`);
    await press("ArrowRight");
    await expect.poll(query, { timeout: 10_000 }).toBe(`note=${solo[1]!.id}`);
    await press("ArrowLeft");
    await expect.poll(query, { timeout: 10_000 }).toBe(`note=${solo[0]!.id}`);
    const note = solo.find(
      (one) => one.chorus === 1 && one.bar >= 1 && one.motifs.length > 0 && one.placement && one.phrase,
    )!;
    const focused = () => page.evaluate(() => document.activeElement?.closest(".view")?.id);
    const back = async () => {
      await page.goto(`${stage.url}/#/takes/${id}?note=${note.id}`);
      await expect
        .poll(() => page.textContent(".reading .sentence"), { timeout: 10_000 })
        .toBe(printedText(note.account));
      await expect.poll(() => press("1").then(focused), { timeout: 10_000 }).toBe("chorus-page");
    };
    await back();
    for (const [key, selected] of [
      ["b", `bar=${note.chorus}.${note.bar}`],
      ["v", `bar=${note.bar}`],
      ["c", `chorus=${note.chorus}`],
      ["h", `phrase=${note.phrase}`],
      ["p", `placement=${note.placement}`],
      ["m", `motif=${note.motifs[0]}`],
    ] as const) {
      await press(key);
      await expect.poll(query, { message: key, timeout: 10_000 }).toBe(selected);
      await back();
    }
    await press("ArrowDown");
    const place = () => {
      const chosen = solo.find((one) => query() === `note=${one.id}`);
      return [chosen?.chorus, chosen?.bar];
    };
    await expect.poll(place, { timeout: 10_000 }).toEqual([note.chorus + 1, note.bar]);
    await press("ArrowUp");
    await expect.poll(() => place()[0], { timeout: 10_000 }).toBe(note.chorus);
    await press("Escape");
    await expect.poll(query, { timeout: 10_000 }).toBe("");

    // Every reading is chosen by its number, stays in the address, and hears the same keys.
    for (const [i, reading] of ["role", "line", "hand", "ideas", "time", "register"].entries()) {
      await press("Escape");
      await page.keyboard.press(String(i + 1));
      await expect.poll(focused, { message: reading, timeout: 10_000 }).toBe("chorus-page");
      await page.waitForSelector(`svg.chorus-page[data-reading="${reading}"]`);
      await press("Home");
      await expect
        .poll(query, { message: reading, timeout: 10_000 })
        .toBe(`note=${solo[0]!.id}${i === 0 ? "" : `&reading=${reading}`}`);
    }
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("two takes are compared, and what they share is opened where it is played", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    await page.goto(`${stage.url}/#/takes/tilda-week-1`);
    await page.waitForSelector(".chorus-page");
    await tabTo(page, "nav a[href='#/compare']", "Shift+Tab");
    await page.keyboard.press("Enter");
    await page.waitForSelector(".sides");
    for (const [side, title] of [
      ["first", "First"],
      ["second", "Third"],
    ] as const) {
      await tabTo(page, `[name="${side}-take"]`);
      await page.keyboard.type(`Tilda ${title}`);
      // What the list beside the field offers, typed to its end: the list itself is the browser's own.
      const offered = page.locator(`#${side}-sides option`).first();
      await offered.waitFor({ state: "attached" });
      await expect.poll(() => offered.getAttribute("value")).toContain(title);
      const whole = (await offered.getAttribute("value"))!;
      await page.keyboard.press("Control+A");
      await page.keyboard.type(whole);
    }
    await tabTo(page, ".sides button.main");
    await page.keyboard.press("Enter");
    await page.waitForSelector(".view-measures-compared .plot svg");
    expect(page.url()).toContain("a=tilda-week-1&b=tilda-week-8");

    await tabTo(page, ".finding-judged summary");
    await page.keyboard.press("Enter");
    expect(await page.textContent(".finding-judged[open]")).toContain("permutation test");
    await tabTo(page, ".view-measures-compared .as-table summary");
    await page.keyboard.press("Enter");
    await expect
      .poll(() => page.locator(".view-measures-compared table tbody tr").count())
      .toBeGreaterThan(10);
    await tabTo(page, "a[href^='#/takes/tilda-week-8?note=']", "Shift+Tab");
    await page.keyboard.press("Enter");
    await page.waitForSelector(".chorus-page");
    expect(await page.locator(".chorus-page .ring.chosen:not([display])").count()).toBe(1);
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("a pattern is played on the letters, searched, heard and opened where it is played", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    await page.goto(`${stage.url}/#/compare`);
    await page.waitForSelector(".sides");
    await tabTo(page, "nav a[href='#/search']", "Shift+Tab");
    await page.keyboard.press("Enter");
    await page.waitForSelector(".press-keys");
    // From C up the middle row is C D E F G A: H G F D are A G F E, a scale down, which every class plays.
    for (const key of ["h", "g", "f", "d"]) await page.keyboard.press(key);
    await expect
      .poll(() => page.$$eval(".played-notes li strong", (all) => all.map((one) => one.textContent)))
      .toEqual(["A4", "G4", "F4", "E4"]);
    await tabTo(page, ".search-form .press-keys [tabindex='0']");
    await page.keyboard.press("ArrowRight");
    expect(await page.evaluate(() => document.activeElement?.getAttribute("aria-label"))).not.toBeNull();
    await tabTo(page, '.search-form [name="viewpoint"]');
    await tabTo(page, ".search-form button.main");
    await page.keyboard.press("Enter");
    await page.waitForSelector(".hit, .search-result .empty");
    await tabTo(page, ".hit button");
    await page.keyboard.press("Enter");
    await expect.poll(() => page.evaluate(() => document.activeElement?.textContent)).toMatch(/Stop|Play/);
    await tabTo(page, ".hit a", "Shift+Tab");
    const address = await page.evaluate(() => document.activeElement!.getAttribute("href")!);
    await page.keyboard.press("Enter");
    await page.waitForSelector(".chorus-page");
    expect(page.url()).toContain(address.slice(1));
    expect(trouble).toEqual([]);
    await context.close();
  });
});
