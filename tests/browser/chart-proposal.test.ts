import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import type { Analysis } from "../../src/account.ts";
import { smallMidi } from "../server/harness.ts";
import { hasChromium, openPage } from "./stage.ts";
import { staged } from "./staged.ts";

const TAKE = join(import.meta.dirname, "../../corpus/takes/jonas-quick-change.mid");

describe.skipIf(!hasChromium)("the chart of a take that comes without one", () => {
  const stage = staged();

  test("is proposed bar by bar, put right, confirmed, and then the user's own", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    await page.goto(`${stage.url}/#/`);
    await page.waitForSelector(".take-link");
    await page.setInputFiles("#take-files", {
      name: "kitchen.mid",
      mimeType: "audio/midi",
      buffer: readFileSync(TAKE),
    });
    await page.getByRole("radio", { name: "Read it from the take" }).check();
    await page.waitForSelector(".proposed-bars");
    expect(await page.locator('[name="proposed"] option:checked').textContent()).toMatch(
      /^12-bar blues with quick change in F, \d+ % sure$/,
    );
    const bars = page.locator('[name="proposed-bar"]');
    expect(await bars.count()).toBe(12);
    for (const label of await bars.evaluateAll((all) => all.map((one) => one.ariaLabel)))
      expect(label).toMatch(/^Bar \d+, \d+ % sure$/);

    // A wrong key is refused where it stands, and nothing is lost.
    await page.fill('[name="proposed-key"]', "H");
    await page.getByRole("button", { name: "Confirm the chart and analyse" }).click();
    expect(await page.locator(".refusal").textContent()).toContain('"H" is not a key');
    await page.fill('[name="proposed-key"]', "F");

    await bars.nth(7).fill("D7b9");
    expect(await bars.nth(7).getAttribute("aria-label")).toBe("Bar 8, yours");
    await page.getByRole("button", { name: "Confirm the chart and analyse" }).click();
    await page.waitForURL(/takes\//);
    const id = /takes\/([^/?]+)/.exec(page.url())![1];
    const analysis = (await (
      await page.request.get(`${stage.url}/api/takes/${id}/analysis`)
    ).json()) as Analysis;
    expect(analysis.chart).toMatchObject({ source: "given", key: "F", idiom: "blues" });
    expect(analysis.chart.bars.map(({ chords }) => chords[0]!.symbol).slice(6, 9)).toEqual([
      "F7",
      "D7(b9)",
      "C7",
    ]);
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("can be heard otherwise, or gone on with as text", async () => {
    const { page, context } = await openPage(stage.browser, stage.url);
    await page.goto(`${stage.url}/#/`);
    await page.waitForSelector(".take-link");
    await page.setInputFiles("#take-files", TAKE);
    await page.getByRole("radio", { name: "Read it from the take" }).check();
    await page.waitForSelector(".proposed-bars");
    const values = () =>
      page
        .locator('[name="proposed-bar"]')
        .evaluateAll((all) => all.map((one) => (one as HTMLInputElement).value));
    const first = await values();
    await page.getByLabel("Heard as").selectOption({ index: 1 });
    expect(await values()).not.toEqual(first);
    await page.getByLabel("Heard as").selectOption({ index: 0 });
    expect(await values()).toEqual(first);
    await page.getByRole("radio", { name: "Type a chart" }).check();
    expect(await page.locator('[name="chart-text"]').inputValue()).toContain(`| ${first.join(" | ")} |`);
    await context.close();
  });

  test("stands open for confirmation on the take's page when it was not looked at before", async () => {
    const { page, context } = await openPage(stage.browser, stage.url);
    const body = new FormData();
    body.append("file", new Blob([readFileSync(TAKE)]), "kitchen.mid");
    const { take } = await (await fetch(`${stage.url}/api/takes`, { method: "POST", body })).json();
    await page.goto(`${stage.url}/#/takes/${take.id}`);
    const confirm = page.getByRole("button", { name: "Confirm the chart and analyse anew" });
    await confirm.click();
    await page.waitForSelector("text=The take is analysed anew.");
    const analysis = await (await fetch(`${stage.url}/api/takes/${take.id}/analysis`)).json();
    expect(analysis.chart.source).toBe("given");
    expect(await confirm.count()).toBe(0);
    await context.close();
  });

  test("is asked for in words where nothing accompanies the solo", async () => {
    const { page, context } = await openPage(stage.browser, stage.url);
    await page.goto(`${stage.url}/#/`);
    await page.waitForSelector(".take-link");
    await page.setInputFiles("#take-files", {
      name: "alone.mid",
      mimeType: "audio/midi",
      buffer: Buffer.from(smallMidi([72, 74, 76, 77, 79, 81, 83, 84])),
    });
    await page.getByRole("radio", { name: "Read it from the take" }).check();
    const refusal = page.locator(".proposal .refusal");
    await refusal.waitFor();
    expect(await refusal.textContent()).toContain("Type the chords");
    expect(await page.getByRole("button", { name: "Analyse", exact: true }).count()).toBe(1);
    await context.close();
  });
});
