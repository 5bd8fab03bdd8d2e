import { join } from "node:path";
import { describe, expect, test } from "vitest";
import type { Analysis } from "../../src/account.ts";
import { hasChromium, openPage } from "./stage.ts";
import { staged } from "./staged.ts";

const SOLO = join(import.meta.dirname, "../../corpus/takes/jonas-quick-change.mid");
/** What a teacher has time for between two lessons; it was eleven once. [practice] */
const MOST = 7;

describe.skipIf(!hasChromium)("from a file to paper", () => {
  const stage = staged();

  test("in seven clicks and fields, the file's own dialog counted", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    await page.addInitScript(() => {
      Object.assign(window, { printed: 0 });
      window.print = () => {
        (window as unknown as { printed: number }).printed++;
      };
    });
    let acts = 0;
    const click = async (selector: string) => {
      acts++;
      await page.click(selector);
    };
    // The file in the browser's dialog is a click too.
    page.on("filechooser", (chooser) => {
      acts++;
      void chooser.setFiles(SOLO);
    });
    await page.goto(stage.url);
    await page.waitForSelector(".take-link");
    await click("label[for='take-files']");
    await page.waitForSelector(".add-details:not([hidden])");
    await click("text=Read it from the take");
    await page.waitForSelector(".proposed-bars");
    acts++;
    await page.fill('[name="player"]', "Nora");
    await click(".add button.main");
    await page.waitForSelector(".take .chorus-page");
    const id = /takes\/([^?]+)/.exec(page.url())![1]!;
    await click("a.button[href$='/practice']");
    await page.waitForSelector(".exercise .engraved", { timeout: 40_000 });
    await click(".take-ways button.main");

    expect(acts).toBeLessThanOrEqual(MOST);
    // The printer's window waits for the sheet to be engraved whole.
    await expect.poll(() => page.evaluate(() => (window as unknown as { printed: number }).printed)).toBe(1);
    // On the changes that were played: the demo take's own chart (corpus/manifest.json).
    const { chart } = (await (await fetch(`${stage.url}/api/takes/${id}/analysis`)).json()) as Analysis;
    expect(chart.bars.map((bar) => bar.chords.map(({ symbol }) => symbol).join(" ")).slice(0, 5)).toEqual([
      ...["F7", "Bb7", "F7", "F7", "Bb7"],
    ]);
    expect(trouble).toEqual([]);
    await context.close();
  });
});
