import { describe, expect, test } from "vitest";
import type { Analysis } from "../../src/account.ts";
import { LOOSE_FORM, looseLine } from "../align/loose-line.ts";
import { violationsOf } from "./axe.ts";
import { oneTrack } from "./one-track.ts";
import { hasChromium, openPage } from "./stage.ts";
import { staged } from "./staged.ts";

/** So loosely that no beat is heard in it, in a file whose tempo somebody chose. */
const FILE = oneTrack(
  132,
  4,
  looseLine(0.5).map(({ pitch, place }) => ({ pitch, at: place, beats: 0.4 })),
);

describe.skipIf(!hasChromium)("a line that keeps loosely to what may be a click", () => {
  const stage = staged();

  test.each([1440, 390])(
    "asks whether a click was heard, is laid by it, and is taken back by Undo: %i pixels",
    async (width) => {
      const body = new FormData();
      body.append("file", new Blob([new Uint8Array(FILE)]), "loose.mid");
      body.append("form", LOOSE_FORM.form);
      body.append("key", LOOSE_FORM.key);
      const { take } = await (await fetch(`${stage.url}/api/takes`, { method: "POST", body })).json();
      const account = async () =>
        (await (await fetch(`${stage.url}/api/takes/${take.id}/analysis`)).json()) as Analysis;
      const before = await account();
      expect(before.warnings.map(({ code }) => code)).toContain("click-cannot-be-told");

      const { page, context, trouble } = await openPage(stage.browser, stage.url, { width });
      await page.goto(`${stage.url}/#/takes/${take.id}`);
      await page.waitForSelector(".glance.asked[open]");
      expect(await violationsOf(page)).toEqual([]);
      await page.click(".glance >> text=/A click was heard/");
      await page.waitForSelector(".notice:has-text('by the click of its file')");
      const { alignment, options } = await account();
      expect(options.method).toBe("click");
      expect(alignment.tempo!.median).toBeCloseTo(132, 2);

      await page.locator(".notice").getByRole("button", { name: "Undo", exact: true }).click();
      await page.waitForSelector(".notice:has-text('as it was before')");
      expect((await account()).alignment.bars).toEqual(before.alignment.bars);
      expect(trouble).toEqual([]);
      await context.close();
    },
  );
});
