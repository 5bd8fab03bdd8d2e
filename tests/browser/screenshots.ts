/**
 * Pictures of every page at three widths, for looking at: `node --import tsx tests/browser/screenshots.ts OUTDIR`.
 * A second argument picks pages by name.
 */
import { mkdirSync } from "node:fs";
import { join } from "node:path";
import { PAGES_TO_SEE, seePage } from "./pages-to-see.ts";
import { buildPages, launch, openPage, serve } from "./stage.ts";

const [out = "screenshots", only = ""] = process.argv.slice(2);
mkdirSync(out, { recursive: true });
await buildPages();
const server = await serve();
const browser = await launch();
try {
  for (const view of PAGES_TO_SEE) {
    if (!view.name.includes(only)) continue;
    for (const [width, dark] of [
      [1440, false],
      [1440, true],
      [1024, false],
      [390, false],
    ] as const) {
      const { page, context, trouble } = await openPage(browser, server.url, { width, dark });
      await seePage(page, server.url, view);
      const name = `${view.name}-${width}${dark ? "-dark" : ""}.png`;
      await page.screenshot({ path: join(out, name), fullPage: true });
      console.log(name, trouble.length === 0 ? "" : trouble.join("; "));
      await context.close();
    }
  }
} finally {
  await browser.close();
  await server.close();
}
