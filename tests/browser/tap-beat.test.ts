import { describe, expect, test } from "vitest";
import type { Analysis } from "../../src/account.ts";
import { tapAlong } from "./pages-to-see.ts";
import { hasChromium, openPage } from "./stage.ts";
import { staged } from "./staged.ts";

describe.skipIf(!hasChromium)("tapping the beat in a browser", () => {
  const stage = staged();

  const account = async (id: string) =>
    (await (await fetch(`${stage.url}/api/takes/${id}/analysis`)).json()) as Analysis;

  test("lays the chart through the taps at once, keeps them with the take, and takes them back", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    const id = "tilda-week-4";
    await page.goto(`${stage.url}/#/takes/${id}?bar=1.2`);
    await page.waitForSelector(".chorus-page");
    await page.click(".glance > summary");
    await page.click("summary:has-text('Tap the beat')");
    // The selected bar is where the first tap is expected.
    expect(await page.inputValue('[name="tap-bar"]')).toBe("2");
    await page.click("text=Play and tap");
    await page.waitForSelector(".tap-pad:enabled", { timeout: 30_000 });
    await tapAlong(page, 9, 600);
    await page.click(".tap-row >> text=Stop");
    await expect.poll(() => page.textContent(".tap-told")).toMatch(/^Nine taps, about (9|10)\d a minute/);
    await page.click("text=Place the chart by these taps");
    await page.waitForSelector(".notice:has-text('goes through your taps')");
    const { alignment } = await account(id);
    expect(alignment.method).toBe("anchored");
    // Nine taps from the first beat of bar 2 are bars 2 and 3 and the first beat of bar 4.
    expect(alignment.anchors.map(({ chorus, bar, beat }) => [chorus, bar, beat])).toEqual([
      [1, 2, 1],
      [1, 3, 1],
      [1, 4, 1],
    ]);
    const [first, second, third] = alignment.anchors;
    expect(Math.abs(second!.seconds - first!.seconds - 2.4)).toBeLessThan(0.15);
    expect(Math.abs(third!.seconds - second!.seconds - 2.4)).toBeLessThan(0.15);
    for (const anchor of alignment.anchors) {
      const bar = alignment.bars.find((one) => one.chorus === 1 && one.bar === anchor.bar)!;
      expect(bar.start).toBeCloseTo(anchor.seconds, 3);
    }
    await page.click(".notice button");
    await expect.poll(async () => (await account(id)).alignment.anchors).toEqual([]);
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("takes a thumb on a phone, and takes back the last tap", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url, { width: 390 });
    await page.goto(`${stage.url}/#/takes/tilda-week-8`);
    await page.waitForSelector(".chorus-page");
    await page.click(".glance > summary");
    await page.click("summary:has-text('Tap the beat')");
    await page.click("text=Play and tap");
    await page.waitForSelector(".tap-pad:enabled", { timeout: 30_000 });
    await page.evaluate(async () => {
      const pad = document.querySelector(".tap-pad")!;
      const told = () => document.querySelector(".tap-told")!.textContent ?? "";
      while (!told().startsWith("Four")) {
        pad.dispatchEvent(
          new PointerEvent("pointerdown", { bubbles: true, cancelable: true, pointerType: "touch" }),
        );
        await new Promise((resolve) => setTimeout(resolve, 560));
      }
    });
    await page.click(".tap-row >> text=Stop");
    await expect.poll(() => page.textContent(".tap-told")).toMatch(/^Four taps/);
    await page.click("text=Take back the last tap");
    expect(await page.textContent(".tap-told")).toMatch(/^Three taps/);
    await page.click("text=Throw them away");
    expect(await page.textContent(".tap-told")).toBe("");
    expect(trouble).toEqual([]);
    await context.close();
  });
});
