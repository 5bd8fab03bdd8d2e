import { gzipSync } from "node:zlib";
import { buildPages, hasChromium, launch, openPage, playServer } from "../browser/stage.ts";
import { sampleAccount } from "../client/sample-account.ts";
import type { Bench } from "./types.ts";

const ORIGIN = "http://pages.test";

/** Take pages of two sizes in Chromium, and what the first load weighs. */
export const bench: Bench = {
  name: "pages",
  async run() {
    if (!hasChromium) return ["skipped: there is no Chromium at /usr/bin/chromium"];
    await buildPages();
    const browser = await launch();
    const lines: string[] = [];
    try {
      for (const [wanted, choruses, notesPerBar, limit] of [
        [600, 8, 7, 1000],
        [5000, 28, 16, 2000],
      ] as const) {
        const account = sampleAccount({ choruses, notesPerBar });
        const { page, context } = await openPage(browser, ORIGIN);
        await playServer(page, account);
        let bytes = 0;
        page.on("response", async (response) => {
          const path = new URL(response.url()).pathname;
          if (path.startsWith("/api/")) return;
          const body = await response.body().catch(() => Buffer.alloc(0));
          bytes += path.endsWith(".woff2") ? body.length : gzipSync(body).length;
        });
        await page.goto(`${ORIGIN}/#/takes/sample`);
        // The frame after the picture stands is the first in which the page answers.
        await page.waitForFunction(() => document.querySelector(".chorus-page"), null, { polling: "raf" });
        const ready = await page.evaluate(() => performance.now());
        const floor = await page.evaluate(() => {
          const began = performance.now();
          for (let i = 0; i < 200; i++)
            document.querySelector(".chorus-page")!.dispatchEvent(new Event("nothing"));
          return (performance.now() - began) / 200;
        });
        const hover = await page.evaluate(() => {
          const svg = document.querySelector<SVGSVGElement>(".chorus-page")!;
          const times: number[] = [];
          for (let i = 0; i < 300; i++) {
            const box = svg.getBoundingClientRect();
            const event = new PointerEvent("pointermove", {
              bubbles: true,
              clientX: box.left + ((i * 37) % box.width),
              clientY: box.top + ((i * 53) % Math.min(box.height, 800)),
            });
            const began = performance.now();
            svg.dispatchEvent(event);
            times.push(performance.now() - began);
          }
          times.sort((a, b) => a - b);
          return { median: times[150]!, worst: times[298]! };
        });
        lines.push(
          `${account.notes.length} notes (${wanted} wanted): answers ${ready.toFixed(0)} ms after navigation (limit ${limit})`,
          `  pointing: median ${hover.median.toFixed(2)} ms of script, 99 % under ${hover.worst.toFixed(2)} ms (limit 16; an empty event takes ${floor.toFixed(3)})`,
        );
        if (wanted === 600)
          lines.push(`  first load: ${(bytes / 1024).toFixed(0)} kB compressed, fonts included (limit 400)`);
        await context.close();
      }
    } finally {
      await browser.close();
    }
    return lines;
  },
};
