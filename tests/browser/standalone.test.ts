import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { Analysis } from "../../src/account.ts";
import { violationsOf } from "./axe.ts";
import { hasChromium, launch, type Served, serve, settled } from "./stage.ts";

const TAKE = "maren-rubato";

describe.skipIf(!hasChromium)("a take as one file", () => {
  let browser: Browser;
  let server: Served;
  let folder: string;
  let address: string;
  let analysis: Analysis;

  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), "one-file-"));
    server = await serve();
    browser = await launch();
    const file = join(folder, "take.html");
    const answer = await fetch(`${server.url}/api/takes/${TAKE}/page.html`);
    expect(answer.headers.get("content-type")).toContain("text/html");
    expect(answer.headers.get("content-disposition")).toContain(`${TAKE}.html`);
    writeFileSync(file, await answer.text());
    address = pathToFileURL(file).href;
    analysis = (await (await fetch(`${server.url}/api/takes/${TAKE}/analysis`)).json()) as Analysis;
  }, 300_000);
  afterAll(async () => {
    await browser?.close();
    await server?.close();
    rmSync(folder, { recursive: true, force: true });
  });

  test("opens from a folder with the network off, asks for nothing, and leads from each sentence to its notes", async () => {
    const context = await browser.newContext({
      viewport: { width: 1280, height: 900 },
      reducedMotion: "reduce",
    });
    await context.setOffline(true);
    const page = await context.newPage();
    const asked: string[] = [];
    const trouble: string[] = [];
    page.on("request", (request) => {
      const url = request.url();
      if (url !== address && !url.startsWith("data:")) asked.push(url);
    });
    page.on("pageerror", (error) => trouble.push(error.message));
    page.on("console", (message) => {
      if (message.type() === "error") trouble.push(message.text());
    });
    await page.goto(address);
    await page.waitForSelector(".chorus-page [data-note]");
    const sentences = page.locator("[data-finding]");
    const told = analysis.findings.filter(({ evidence }) => evidence.length > 0);
    expect(told.length).toBeGreaterThan(2);
    expect(await sentences.count()).toBe(told.length);
    for (let i = 0; i < (await sentences.count()); i++) {
      const sentence = sentences.nth(i);
      const id = await sentence.getAttribute("data-finding");
      await sentence.click();
      expect(await sentence.getAttribute("aria-pressed")).toBe("true");
      const lit = await page.$$eval(".chorus-page [data-note].on", (notes) =>
        notes.map((note) => (note as SVGElement).dataset.note),
      );
      const { evidence } = analysis.findings.find((finding) => finding.id === id)!;
      const solo = new Set(analysis.notes.filter((note) => note.solo).map((note) => note.id));
      expect([...new Set(lit)].sort()).toEqual(evidence.filter((note) => solo.has(note)).sort());
      await page.keyboard.press("Escape");
    }
    expect(await page.locator(".exercise .engraved g.note").count()).toBeGreaterThan(10);
    // Two bars to a line on a phone, four on a desk: fingers can be read on both.
    for (const [width, bars] of [
      [390, 2],
      [1440, 4],
    ] as const) {
      await page.setViewportSize({ width, height: 900 });
      const drawn = await page.$$eval(".exercise .engraved", (all) =>
        all
          .filter((one) => one.checkVisibility())
          .map((one) => ({
            bars: Math.max(
              ...[...one.querySelectorAll("g.system")].map(
                (line) => line.querySelectorAll("g.measure").length,
              ),
            ),
            finger: Math.min(
              ...[...one.querySelectorAll("g.fing tspan tspan")].map(
                (text) => text.getBoundingClientRect().height,
              ),
            ),
          })),
      );
      expect(drawn.length).toBe(await page.locator(".exercise").count());
      for (const one of drawn) {
        expect(one.bars).toBeLessThanOrEqual(bars);
        expect(one.finger).toBeGreaterThan(9);
      }
    }
    const fonts = await page.evaluate(async () => {
      await document.fonts.ready;
      return [...document.fonts].filter((font) => font.status === "loaded").map((font) => font.family);
    });
    expect(fonts.join(" ")).toContain("Literata");
    expect(await violationsOf(page)).toEqual([]);
    for (const width of [1024, 390]) {
      await page.setViewportSize({ width, height: 900 });
      await settled(page);
      const wide = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
      expect(wide, `at ${width}`).toBeLessThanOrEqual(0);
    }
    await page.emulateMedia({ colorScheme: "dark" });
    expect(await violationsOf(page)).toEqual([]);
    expect(asked).toEqual([]);
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("cannot be broken out of by a title that looks like markup", async () => {
    const evil = '</script><script>document.title="taken"</script>';
    const changed = await fetch(`${server.url}/api/takes/jonas-pickup`, {
      method: "PATCH",
      headers: { "content-type": "application/json" },
      body: JSON.stringify({ title: evil }),
    });
    expect(changed.status).toBe(200);
    const file = join(folder, "evil.html");
    writeFileSync(file, await (await fetch(`${server.url}/api/takes/jonas-pickup/page.html`)).text());
    const page = await browser.newPage();
    await page.goto(pathToFileURL(file).href);
    await page.waitForSelector(".lesson h1");
    expect(await page.textContent(".lesson h1")).toBe(evil);
    expect(await page.title()).toContain(evil);
    await page.close();
  });
});
