import { readFileSync } from "node:fs";
import type { Download, Locator, Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { hasChromium, openPage } from "./stage.ts";
import { staged } from "./staged.ts";

/** Pages with pictures, what must be there, and the pictures that each holds, as they are named when saved. */
const PAGES: readonly {
  readonly path: string;
  readonly shows: string;
  readonly act?: (page: Page) => Promise<void>;
  readonly pictures: readonly RegExp[];
}[] = [
  {
    path: "/takes/tilda-week-8",
    shows: ".chorus-page",
    act: async (page) => {
      await page.click("text=Engrave the staff");
      await page.waitForSelector(".engraved g.note", { timeout: 40_000 });
    },
    pictures: [/^chorus-page/, /^role-shares/, /^staff/],
  },
  {
    path: "/takes/tilda-week-8?reading=line",
    shows: ".chorus-page",
    pictures: [/^chorus-page/, /^line-shares/],
  },
  {
    path: "/takes/tilda-week-8?reading=ideas",
    shows: ".chorus-page",
    pictures: [/^chorus-page/, /^motif-list/],
  },
  {
    path: "/takes/tilda-week-8?reading=time",
    shows: ".chorus-page",
    pictures: [/^chorus-page/, /^swing-by-beat/],
  },
  {
    path: "/takes/tilda-week-8?reading=register",
    shows: ".chorus-page",
    pictures: [/^chorus-page/, /^register/],
  },
  {
    path: "/compare?a=tilda-week-1&b=tilda-week-8",
    shows: ".bars-together",
    pictures: [/^measures-compared/, /^bars-together/, /^shares-/, /^shares-/, /^shares-/, /^shares-/],
  },
  { path: "/players/tilda", shows: ".finding-history", pictures: [/^progress-lines/, /^finding-history/] },
  { path: "/placements", shows: ".map-placement", pictures: [/^placement-map/] },
  {
    path: "/takes/tilda-week-8/practice",
    shows: ".exercise .engraved",
    act: async (page) => {
      await expect.poll(() => page.locator(".exercise-staff .hint").count(), { timeout: 60_000 }).toBe(0);
    },
    pictures: [/^exercise-1/, /^exercise-2/, /^exercise-3/],
  },
];

// PNG signature: W3C Portable Network Graphics (3rd edition), 5.2.
const PNG = [137, 80, 78, 71, 13, 10, 26, 10];

/**
 * The file that a button gives. While pictures are being drawn the page may move under the pointer between its finding
 * the button and its press, which then meets something else: it is pressed again.
 */
async function kept(page: Page, button: Locator): Promise<Download> {
  const press = () => Promise.all([page.waitForEvent("download", { timeout: 10_000 }), button.click()]);
  const [file] = await press().catch(press);
  return file;
}

describe.skipIf(!hasChromium)("every picture can be taken along and read as a table", () => {
  const stage = staged();

  for (const { path, shows, act, pictures } of PAGES) {
    test(`${path}: saves as SVG and PNG, with a table for each`, async () => {
      const { page, context, trouble } = await openPage(stage.browser, stage.url);
      await page.goto(`${stage.url}/#${path}`);
      await page.waitForSelector("main h1");
      await page.evaluate(async () => {
        for (let y = 0; y < document.body.scrollHeight; y += 300) {
          window.scrollTo(0, y);
          await new Promise((resolve) => setTimeout(resolve, 30));
        }
      });
      await page.waitForSelector(shows, { state: "attached" });
      await act?.(page);
      const saves = page.locator(".save:visible");
      const names: string[] = [];
      for (let i = 0; i < (await saves.count()); i++) {
        for (const kind of ["SVG", "PNG"] as const) {
          const file = await kept(page, saves.nth(i).locator(`button:text-is("${kind}")`));
          const bytes = readFileSync(await file.path());
          const name = file.suggestedFilename();
          if (kind === "SVG") {
            names.push(name);
            const text = bytes.toString();
            expect(text, name).toMatch(/^<svg [^>]*xmlns="http:\/\/www\.w3\.org\/2000\/svg"/);
            // It stands by itself: nothing is fetched, and no style sheet is missed.
            expect(text, name).not.toMatch(/<script|<link|href="https?:/);
            expect(text.length, name).toBeGreaterThan(800);
            // Lines of a staff are strokes, and its flats come from a font that has to go along.
            if (/^(staff|exercise)/.test(name)) {
              expect(text, name).toContain('stroke="#000"');
              expect(text, name).toContain("@font-face");
            }
          } else {
            expect([...bytes.subarray(0, 8)], name).toEqual(PNG);
            expect(bytes.length, name).toBeGreaterThan(1500);
          }
        }
      }
      for (const picture of pictures)
        expect(
          names.some((name) => picture.test(name)),
          `${picture} among ${names.join(", ")}`,
        ).toBe(true);
      const tables = page.locator("details.as-table");
      expect(await tables.count()).toBeGreaterThanOrEqual(names.length);
      for (let i = 0; i < (await tables.count()); i++) {
        await tables.nth(i).locator("summary").click();
        await tables.nth(i).locator("tbody tr").first().waitFor();
        expect(await tables.nth(i).locator("caption").textContent()).not.toBe("");
      }
      expect(trouble).toEqual([]);
      await context.close();
    });
  }
});
