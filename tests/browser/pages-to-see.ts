/** Every page and state that is looked at and tested, with what must be there before it counts as shown. */
import { join } from "node:path";
import type { Page } from "playwright-core";

const TAKES = join(import.meta.dirname, "../../corpus/takes");

export interface PageToSee {
  readonly name: string;
  readonly path: string;
  /** Selector that must be there. */
  readonly shows: string;
  /** What a user does first. */
  readonly act?: (page: Page) => Promise<void>;
}

export const PAGES_TO_SEE: readonly PageToSee[] = [
  { name: "takes", path: "/", shows: ".players .take-link" },
  {
    name: "take-added",
    path: "/",
    shows: ".players .take-link",
    act: async (page) => {
      await page.setInputFiles("#take-files", [
        { name: "evening.mid", mimeType: "audio/midi", buffer: Buffer.from("MThd") },
      ]);
      await page.waitForSelector(".add-details:not([hidden])");
    },
  },
  {
    name: "take-refused",
    path: "/",
    shows: ".players .take-link",
    act: async (page) => {
      await page.setInputFiles("#take-files", [
        { name: "letter.mid", mimeType: "audio/midi", buffer: Buffer.from("not music") },
      ]);
      await page.click("button[type=submit]");
      await page.waitForSelector(".refusal");
    },
  },
  { name: "take", path: "/takes/maren-lantern-yard", shows: ".chorus-page" },
  { name: "take-note", path: "/takes/bram-lantern-yard?note=n40", shows: ".chorus-page" },
  { name: "take-bar", path: "/takes/tilda-lantern-yard?bar=1.4", shows: ".chorus-page" },
  { name: "take-blues", path: "/takes/jonas-pickup?chorus=2", shows: ".chorus-page" },
  { name: "take-rubato", path: "/takes/maren-rubato", shows: ".chorus-page" },
  {
    name: "take-staff",
    path: "/takes/tilda-week-8",
    shows: ".chorus-page",
    act: async (page) => {
      await page.click("text=Engrave the staff");
      await page.waitForSelector(".engraved g.note", { timeout: 30_000 });
    },
  },
  { name: "findings", path: "/takes/bram-quick-change/findings", shows: ".finding" },
  { name: "compare-choose", path: "/compare", shows: ".sides" },
  {
    name: "compare",
    path: "/compare?a=tilda-week-1&b=tilda-week-8",
    shows: ".view-measures-compared .plot svg",
  },
  {
    name: "shapes",
    path: "/shapes",
    shows: ".shape-card",
    act: async (page) => {
      for (const pitch of [60, 63, 66])
        await page.dispatchEvent(`.press-keys [data-pitch="${pitch}"]`, "click");
    },
  },
  { name: "progress", path: "/players/tilda", shows: ".progress" },
  { name: "practice", path: "/takes/tilda-week-8/practice", shows: ".exercise .engraved" },
  { name: "placements", path: "/placements", shows: ".map-placement" },
  { name: "record", path: "/record", shows: ".record-keys" },
  {
    name: "recording",
    path: "/record",
    shows: ".record-keys",
    act: async (page) => {
      await page.click("button.main");
      await page.waitForSelector(".finger-spot");
      await page.keyboard.down("a");
    },
  },
  { name: "corpora", path: "/corpora", shows: "h1" },
  {
    name: "corpus",
    path: "/corpora",
    shows: "h1",
    act: async (page) => {
      await page.fill('[name="corpus-name"]', "Evening class");
      await page.click("button.main");
      await page.waitForSelector("#corpus-files", { state: "attached" });
      await page.click("text=Send takes");
      await page.setInputFiles("#corpus-files", [
        ...["tilda-week-1", "tilda-week-8", "jonas-pickup"].map((name) => join(TAKES, `${name}.mid`)),
      ]);
      await page.selectOption('[name="form"]', { index: 1 });
      await page.click("form button.main:has-text('Send')");
      await page.waitForSelector("text=/analysed, 0 could/", { timeout: 60_000 });
      await page.waitForSelector(".corpus-measures");
      await page.click("button:has-text('Search')");
      await page.waitForSelector("text=/place|nowhere/");
    },
  },
  { name: "no-such-take", path: "/takes/nobody", shows: ".refusal" },
];

/** Opens the page and lets all of it be drawn. */
export async function seePage(page: Page, origin: string, view: PageToSee): Promise<void> {
  await page.goto(`${origin}/#${view.path}`);
  await page.waitForSelector(view.shows);
  await view.act?.(page);
  await page.evaluate(async () => {
    for (let y = 0; y < document.body.scrollHeight; y += 400) {
      window.scrollTo(0, y);
      await new Promise((resolve) => setTimeout(resolve, 20));
    }
    window.scrollTo(0, 0);
    await document.fonts.ready;
    await new Promise((resolve) => setTimeout(resolve, 80));
  });
}
