import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { indexAccount } from "../../client/shell/account-index.ts";
import { readSelection } from "../../client/shell/selection.ts";
import type { Analysis } from "../../src/account.ts";
import { hasChromium, keepOpenedTakes, openPage, POLICY, settled } from "./stage.ts";
import { staged } from "./staged.ts";

const TAKES = join(import.meta.dirname, "../../corpus/takes");
const ID = "bram-quick-change";

describe.skipIf(!hasChromium)("the house around the pages", () => {
  const stage = staged();

  /** Lets go of files over the middle of the page, as a file manager would. */
  const drop = async (page: Page, files: readonly { name: string; bytes: readonly number[] }[]) => {
    const data = await page.evaluateHandle((list) => {
      const transfer = new DataTransfer();
      for (const { name, bytes } of list) transfer.items.add(new File([Uint8Array.from(bytes)], name));
      return transfer;
    }, files);
    await page.dispatchEvent("main", "dragover", { dataTransfer: data });
    await page.dispatchEvent("main", "drop", { dataTransfer: data });
  };
  const bytesOf = (name: string) => [...readFileSync(join(TAKES, name))];

  test("takes files that are dropped on any page; of many, one bad one stays behind with its reason", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    await page.goto(`${stage.url}/#/shapes`);
    await page.waitForSelector(".shape-card");
    await drop(page, [
      { name: "first.mid", bytes: bytesOf("tilda-week-1.mid") },
      { name: "letter.mid", bytes: [...Buffer.from("Dear teacher")] },
      { name: "second.mid", bytes: bytesOf("tilda-week-8.mid") },
    ]);
    await page.waitForSelector('.chosen [data-file="2"]');
    expect(new URL(page.url()).hash).toBe("#/");
    const before = await page.locator(".take-link").count();
    await page.fill('[name="player"]', "Evening class");
    await page.click(".add button.main");
    await page.waitForSelector(".notice:has-text('two takes analysed')", { timeout: 50_000 });
    expect(await page.textContent(".notice")).toContain("one file could not be taken");
    expect(await page.textContent(".refusal-file")).toBe("letter.mid");
    expect((await page.textContent(".refusal-what"))!.length).toBeGreaterThan(15);
    expect((await page.textContent(".refusal-todo"))!.length).toBeGreaterThan(10);
    expect(await page.$$eval(".chosen .file-name", (names) => names.map((name) => name.textContent))).toEqual(
      ["letter.mid"],
    );
    await expect.poll(() => page.locator(".take-link").count()).toBe(before + 2);
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("opens every kind of selection from its address, with its notes lit and its words beside", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    const analysis = (await (await fetch(`${stage.url}/api/takes/${ID}/analysis`)).json()) as Analysis;
    const index = indexAccount(analysis);
    const finding = analysis.findings.find((one) => one.evidence.length > 1)!;
    for (const query of [
      `note=${index.solo[7]!.id}`,
      "bar=2.5",
      "bar=5",
      "chorus=2",
      `motif=${analysis.motifs[0]!.id}`,
      `placement=${analysis.placements.at(-1)!.id}`,
      `phrase=${analysis.phrases.at(-1)!.id}`,
      `finding=${encodeURIComponent(finding.id)}`,
    ]) {
      await page.goto("about:blank");
      await page.goto(`${stage.url}/#/takes/${ID}?${query}`);
      await page.waitForSelector(".chorus-page");
      const wanted = [...index.notesOf(readSelection(new URLSearchParams(query)))!];
      const lit = await page.$$eval(".chorus-page .sign.on", (signs) =>
        signs.map((sign) => (sign as SVGElement).dataset.note),
      );
      expect(lit.sort(), query).toEqual(wanted.filter((id) => index.note.get(id)!.solo).sort());
      expect(await page.textContent(".reading-head"), query).not.toContain("Nothing");
    }
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("sends a page for the first time in less than 400 kB, without the engraver and the sound", async () => {
    const { page, context } = await openPage(stage.browser, stage.url);
    const files: { path: string; sent: Promise<number> }[] = [];
    page.on("response", (response) => {
      const { pathname } = new URL(response.url());
      const sent = response.request().sizes();
      if (!pathname.startsWith("/api/")) {
        files.push({ path: pathname, sent: sent.then(({ responseBodySize }) => responseBodySize) });
      }
    });
    await page.goto(`${stage.url}/#/takes/${ID}`);
    await page.waitForSelector(".chorus-page");
    await page.waitForLoadState("networkidle");
    expect(files.map(({ path }) => path).filter((path) => /verovio|piano/.test(path))).toEqual([]);
    const bytes = (await Promise.all(files.map(({ sent }) => sent))).reduce((a, b) => a + b, 0);
    expect(bytes).toBeLessThan(400 * 1024);
    await context.close();
  });

  // "Good" is at most 0.1 (Core Web Vitals); what moves within half a second of an act of the user is not counted.
  test("lets nothing jump while pages load and are scrolled, on a desk and on a phone", async () => {
    for (const width of [1440, 390]) {
      for (const path of ["/", `/takes/${ID}`, `/takes/${ID}/findings`, "/placements", "/players/tilda"]) {
        const { page, context } = await openPage(stage.browser, stage.url, { width });
        await page.addInitScript(() => {
          Object.assign(window, { shifts: [] });
          new PerformanceObserver((list) => {
            for (const entry of list.getEntries() as (PerformanceEntry & {
              value: number;
              hadRecentInput: boolean;
              sources: { node?: Node }[];
            })[]) {
              if (!entry.hadRecentInput)
                (window as unknown as { shifts: unknown[] }).shifts.push([
                  entry.value,
                  entry.sources
                    .map((one) => (one.node as Element)?.className ?? one.node?.nodeName)
                    .join(", "),
                ]);
            }
          }).observe({ type: "layout-shift", buffered: true });
        });
        await page.goto(`${stage.url}/#${path}`);
        await page.waitForSelector("main h1");
        await page.waitForLoadState("networkidle");
        await settled(page);
        await page.evaluate(async () => {
          for (let y = 0; y < document.body.scrollHeight; y += 250) {
            window.scrollTo(0, y);
            await new Promise((resolve) => setTimeout(resolve, 40));
          }
        });
        const shifts = await page.evaluate(
          () => (window as unknown as { shifts: [number, string][] }).shifts,
        );
        const sum = shifts.reduce((total, [value]) => total + value, 0);
        expect(sum, `${path} at ${width}: ${JSON.stringify(shifts)}`).toBeLessThanOrEqual(0.1);
        await context.close();
      }
    }
  });

  test("says what is wrong and how to go on: no server, no such take, no such page", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    await page.goto(stage.url);
    await page.waitForSelector(".take-link");
    await page.route("**/api/**", (route) => route.abort());
    await page.goto(`${stage.url}/#/takes/${ID}`);
    await page.waitForSelector(".refusal");
    expect(await page.textContent(".refusal-what")).toContain("does not answer");
    expect(await page.textContent(".refusal-todo")).toContain("still running");
    await page.unroute("**/api/**");
    await page.click("button:has-text('Try again')");
    await page.waitForSelector(".chorus-page");

    await page.goto(`${stage.url}/#/takes/nobody`);
    await page.waitForSelector(".refusal");
    expect((await page.textContent(".refusal-what"))!).toMatch(/no take/i);
    await page.goto(`${stage.url}/#/nowhere`);
    await page.waitForSelector(".refusal");
    expect(await page.textContent(".refusal-what")).toContain("no page at this address");
    await page.click(".mark");
    await page.waitForSelector(".take-link");
    expect(trouble.filter((one) => !/ERR_FAILED/.test(one))).toEqual([]);
    await context.close();
  });

  test("is served under a policy that lets no foreign or inline script, style or picture in", async () => {
    const answer = await fetch(stage.url);
    const policy = answer.headers.get("content-security-policy")!;
    const directives = (text: string) =>
      text
        .split(";")
        .map((part) => part.trim())
        .filter(Boolean)
        .sort();
    expect(directives(policy)).toEqual(directives(POLICY));
    expect(policy).not.toMatch(/unsafe-inline|unsafe-eval(?<!wasm-unsafe-eval)|\*|https?:/);
    const { page, context } = await openPage(stage.browser, stage.url);
    await page.goto(stage.url);
    await page.waitForSelector(".take-link");
    const broken = await page.evaluate(async () => {
      const seen: string[] = [];
      document.addEventListener("securitypolicyviolation", (event) => seen.push(event.effectiveDirective));
      const script = document.createElement("script");
      script.textContent = "window.foreign = true";
      document.head.append(script);
      const style = document.createElement("style");
      style.textContent = "body { display: none }";
      document.head.append(style);
      const image = new Image();
      image.src = "https://pictures.invalid/a.png";
      document.body.append(image);
      await fetch("https://data.invalid/").catch(() => {});
      await new Promise((resolve) => setTimeout(resolve, 100));
      return { seen: [...new Set(seen)].sort(), foreign: "foreign" in window };
    });
    expect(broken.foreign).toBe(false);
    expect(broken.seen).toEqual(["connect-src", "img-src", "script-src-elem", "style-src-elem"]);
    await context.close();
  });

  test("prints dark ink on white paper without the buttons, also from a dark screen", async () => {
    const { page, context } = await openPage(stage.browser, stage.url, { dark: true });
    await page.goto(`${stage.url}/#/takes/${ID}`);
    await page.waitForSelector(".chorus-page");
    await page.emulateMedia({ media: "print", colorScheme: "dark" });
    const seen = await page.evaluate(() => {
      const style = (selector: string) => getComputedStyle(document.querySelector(selector)!);
      return {
        ink: style("h1").color,
        sheet: style(".view").backgroundColor,
        root: style(".chorus-page .sign.role-root").fill,
        left: [".layout-head nav", ".take-ways", ".save", ".transport", ".controls"].filter(
          (one) => document.querySelector(one)!.getClientRects().length > 0,
        ),
      };
    });
    expect(seen.ink).toBe("rgb(0, 0, 0)");
    expect(seen.sheet).toBe("rgb(255, 255, 255)");
    // The light palette's dark brown.
    expect(seen.root).toBe("rgb(51, 38, 27)");
    expect(seen.left).toEqual([]);
    const pdf = await page.pdf({ format: "A4" });
    expect(pdf.subarray(0, 5).toString()).toBe("%PDF-");
    await context.close();
  });

  test("keeps light or dark as it was chosen", async () => {
    const { page, context } = await openPage(stage.browser, stage.url, { dark: true });
    await page.goto(stage.url);
    await page.waitForSelector(".take-link");
    const paper = () => page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor);
    const dark = await paper();
    await page.click("button:has-text('Theme: system')");
    const light = await paper();
    expect(light).not.toBe(dark);
    await page.reload();
    await page.waitForSelector(".take-link");
    expect(await paper()).toBe(light);
    await page.click("button:has-text('Theme: light')");
    expect(await paper()).toBe(dark);
    await context.close();
  });

  test("opens the takes that it keeps without the network, and says of the rest that it cannot be read now", async () => {
    const context = await stage.browser.newContext({ viewport: { width: 1024, height: 800 } });
    const page = await context.newPage();
    await keepOpenedTakes(page, stage.url);
    await page.goto(`${stage.url}/#/takes/${ID}`);
    await page.waitForSelector(".chorus-page");
    await context.setOffline(true);
    await page.reload();
    await page.waitForSelector(".chorus-page");
    await page.goto(`${stage.url}/#/takes/maren-lantern-yard`);
    await page.waitForSelector(".refusal");
    expect(await page.textContent(".refusal-what")).toContain("does not answer");
    await context.close();
  });
});
