/** A typed chart is drawn as it is read, played on demand, and asked about, before anything is analysed. */
import { describe, expect, test } from "vitest";
import { violationsOf } from "./axe.ts";
import { inBothArrangements } from "./for-everyone.ts";
import { soundedIn, watchSound } from "./sound-watch.ts";
import { hasChromium, openPage } from "./stage.ts";
import { staged } from "./staged.ts";

describe.skipIf(!hasChromium)("a typed chart before the analysis", () => {
  const stage = staged();

  async function typing(text: string) {
    const watched = await openPage(stage.browser, stage.url);
    await watchSound(watched.page);
    await watched.page.goto(`${stage.url}/#/record`);
    await watched.page.check("[name=chart-way][value=text]");
    await watched.page.fill("[name=chart-text]", text);
    return watched;
  }

  test("is drawn with its bars in the order of playing, for everyone, at any width", async () => {
    const { page, context, trouble } = await typing("key: C\n|: Dm7 | G7 |1 Cmaj7 :|2 C6 |");
    await expect
      .poll(() => page.locator(".read-bars li").allTextContents())
      .toEqual(["1 Dm7", "2 G7", "3 Cmaj7", "4 Dm7", "5 G7", "6 C6"]);
    expect(await page.textContent(".chart-preview .hint")).toBe("Read as 6 bars of 4/4 in C:");
    await inBothArrangements(page, async () => {
      expect(await violationsOf(page)).toEqual([]);
    });
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("is played: each chord's bass is struck where its bar begins, and the bar is marked", async () => {
    const { page, context, trouble } = await typing("key: C\n| Dm7 | G7 | Cmaj7 | % |");
    await page.click("text=Play these bars");
    await page.waitForSelector(".read-bars li.playing");
    const sounded = await soundedIn(page);
    const start = sounded[0]!.when;
    // 132 quarter notes a minute, four to a bar; D, G and C in the bass: pitch classes 2, 7 and 0.
    const bassOf = (bar: number) => {
      const at = start + (bar - 1) * 4 * (60 / 132);
      return Math.min(...sounded.filter(({ when }) => Math.abs(when - at) < 0.02).map(({ pitch }) => pitch!));
    };
    expect([1, 2, 3].map((bar) => Math.round(bassOf(bar)) % 12)).toEqual([2, 7, 0]);
    await page.click(".chart-preview >> text=Stop");
    await page.waitForSelector(".read-bars li.playing", { state: "detached" });
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("asks about what it only understood, and says the mend where it cannot read", async () => {
    const { page, context } = await typing("Waltz in 3/4\n| C | F |");
    await expect.poll(() => page.textContent(".chart-asks")).toContain("The meter 3/4 was taken");
    await page.fill("[name=chart-text]", "| Dm7(4) | G7 |");
    await expect.poll(() => page.textContent(".chart-preview")).toContain("Dm7:4");
    await context.close();
  });
});
