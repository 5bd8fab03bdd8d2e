/** Retakes the picture of the README: `node --import tsx tests/browser/readme-picture.ts`. */
import { join } from "node:path";
import type { Analysis } from "../../src/account.ts";
import { buildPages, launch, openPage, serve } from "./stage.ts";

const TAKE = "maren-quick-change";
const PICTURE = join(import.meta.dirname, "../../.readme/take-page.png");

await buildPages();
const server = await serve();
const browser = await launch();
try {
  const analysis = (await (await fetch(`${server.url}/api/takes/${TAKE}/analysis`)).json()) as Analysis;
  // A note of the solo that shows most: a blue note in a placement, with a finger, on its way to another note.
  const note = analysis.notes.find(
    (one) => one.solo && one.chorus === 1 && one.role === "blue" && one.placement && one.finger && one.target,
  );
  if (!note) throw new Error(`${TAKE} has no such note any more; choose another`);
  const { page } = await openPage(browser, server.url, { width: 1280, height: 900 });
  await page.goto(`${server.url}/#/takes/${TAKE}?note=${note.id}`);
  await page.waitForSelector(".take .chorus-page .ring.chosen:not([display])");
  await page.evaluate(() => document.fonts.ready);
  await page.screenshot({ path: PICTURE });
  console.log(`${PICTURE}: ${note.account}`);
} finally {
  await browser.close();
  await server.close();
}
