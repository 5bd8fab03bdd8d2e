/**
 * Pictures of every page at three widths, light and dark, for looking at:
 * `node --import tsx tests/browser/screenshots.ts OUTDIR [PATTERN]`, where the pattern picks pages by their names.
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
    if (!new RegExp(only).test(view.name)) continue;
    for (const width of [1440, 1024, 390]) {
      const { page, context, trouble } = await openPage(browser, server.url, { width });
      try {
        await seePage(page, server.url, view);
      } catch (error) {
        // The others are still worth seeing.
        process.exitCode = 1;
        console.error(`${view.name} at ${width}: ${(error as Error).message.split("\n")[0]}`);
      }
      for (const colorScheme of ["light", "dark"] as const) {
        await page.emulateMedia({ colorScheme });
        const name = `${view.name}-${width}${colorScheme === "dark" ? "-dark" : ""}.png`;
        await page.screenshot({ path: join(out, name), fullPage: true });
      }
      console.log(view.name, width, trouble.join("; "));
      await context.close();
    }
  }
} finally {
  await browser.close();
  await server.close();
}
