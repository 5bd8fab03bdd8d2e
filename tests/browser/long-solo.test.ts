import type { Page } from "playwright-core";
import { beforeAll, describe, expect, test } from "vitest";
import type { Analysis } from "../../src/account.ts";
import { sampleRecording } from "../client/sample-recording.ts";
import { hasChromium, openPage } from "./stage.ts";
import { staged } from "./staged.ts";

const CHORUSES = 40;

/** What of the picture stands in its frame, and where the frame is. */
const looked = (page: Page) =>
  page.evaluate(() => {
    const plot = document.querySelector<HTMLElement>("#chorus-page .plot")!;
    const box = plot.getBoundingClientRect();
    const inside = (element: Element) => {
      const { top, bottom } = element.getBoundingClientRect();
      return top >= box.top - 1 && bottom <= box.bottom + 1;
    };
    const notes = [...plot.querySelectorAll<SVGElement>(".chorus-page .sign")];
    const ring = plot.querySelector(".ring.chosen")!;
    return {
      top: plot.scrollTop,
      height: plot.clientHeight,
      full: plot.scrollHeight,
      drawn: notes.map((one) => one.dataset.note!),
      seen: notes.filter(inside).map((one) => one.dataset.note!),
      rows: [...plot.querySelectorAll<SVGElement>(".chorus-page .row-name")].map((one) => one.dataset.row!),
      chosen: !ring.hasAttribute("display") && inside(ring),
      heads: [...plot.querySelectorAll(".chorus-heads .chord")].map((one) => one.textContent),
    };
  });

describe.skipIf(!hasChromium)("a solo of forty choruses", () => {
  const stage = staged();
  let id: string;
  let solo: Analysis["notes"][number][];

  beforeAll(async () => {
    const form = new FormData();
    form.append(
      "file",
      new Blob([new Uint8Array(sampleRecording({ choruses: CHORUSES, notesPerBar: 2 }))]),
      "long.mid",
    );
    form.append("form", "blues-basic");
    form.append("key", "F");
    const answer = await fetch(`${stage.url}/api/takes`, { method: "POST", body: form });
    const sent = (await answer.json()) as { take: { id: string }; analysis: Analysis };
    id = sent.take.id;
    const analysis = (await (await fetch(`${stage.url}/api/takes/${id}/analysis`)).json()) as Analysis;
    solo = analysis.notes.filter((note) => note.solo).sort((a, b) => a.onset - b.onset || a.pitch - b.pitch);
  }, 120_000);

  const open = async (query = "") => {
    const watched = await openPage(stage.browser, stage.url);
    await watched.page.goto(`${stage.url}/#/takes/${id}${query}`);
    await watched.page.waitForSelector(".chorus-page .sign");
    return watched;
  };
  const byId = (note: string) => solo.find((one) => one.id === note)!;

  test("scrolls in its own frame; what is seen is drawn, and what is drawn is near it", async () => {
    const { page, context, trouble } = await open();
    const first = await looked(page);
    expect(first.full).toBeGreaterThan(3 * first.height);
    expect(first.rows[0]).toBe("1");
    expect(first.drawn.length).toBeLessThan(solo.length / 2);
    await page.$eval("#chorus-page .plot", (plot) => {
      plot.scrollTop = plot.scrollHeight / 2;
    });
    await expect.poll(async () => (await looked(page)).rows.includes("23"), { timeout: 10_000 }).toBe(true);
    const middle = await looked(page);
    // Every note of a chorus whose name is seen is there, and none of the first ones is left.
    const whole = middle.rows[Math.floor(middle.rows.length / 2)]!;
    const own = solo.filter((note) => String(note.chorus) === whole && note.bar >= 1 && note.bar <= 12);
    for (const note of own) expect(middle.drawn).toContain(note.id);
    expect(middle.rows).not.toContain("1");
    expect(middle.drawn.length).toBeLessThan(solo.length / 2);
    // The twelve chords of the form stay in sight: F7 in bar 1, B flat 7 in bar 5, C7 in bar 9. [practice]
    expect([middle.heads[0], middle.heads[4], middle.heads[8]]).toEqual(["F7", "B♭7", "C7"]);
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("the keyboard walks to any note, and its place is seen", async () => {
    const { page, context } = await open();
    await page.focus("#chorus-page .plot");
    for (const key of ["End", "Home", "ArrowRight", ...Array<string>(12).fill("ArrowDown"), "ArrowLeft"]) {
      await page.keyboard.press(key);
      await expect
        .poll(async () => (await looked(page)).chosen, { message: key, timeout: 10_000 })
        .toBe(true);
    }
    const note = /note=([^&]+)/.exec(page.url())![1]!;
    expect(byId(note).chorus).toBeGreaterThanOrEqual(12);
    expect((await looked(page)).seen).toContain(note);
    await context.close();
  });

  test("a link to a note opens at it", async () => {
    const note = solo.find((one) => one.chorus === 30)!;
    const { page, context } = await open(`?note=${note.id}`);
    await expect.poll(async () => (await looked(page)).chosen, { timeout: 10_000 }).toBe(true);
    expect((await looked(page)).seen).toContain(note.id);
    await context.close();
  });

  test("a finding lights its notes where they are, and gives the place back", async () => {
    const { page, context } = await open();
    await page.$eval("#chorus-page .plot", (plot) => {
      plot.scrollTop = plot.scrollHeight;
    });
    await expect.poll(async () => (await looked(page)).rows.includes("39"), { timeout: 10_000 }).toBe(true);
    const before = (await looked(page)).top;
    const lines = page.locator(".lesson-lines .finding-line");
    expect(await lines.count()).toBeGreaterThan(0);
    let lit = false;
    for (let i = 0; i < (await lines.count()) && !lit; i++) {
      await lines.nth(i).hover();
      lit = await page.evaluate(() => document.querySelector(".chorus-page.has-selection .sign.on") !== null);
    }
    expect(lit).toBe(true);
    await page.mouse.move(2, 2);
    await expect.poll(async () => (await looked(page)).top, { timeout: 10_000 }).toBe(before);
    await context.close();
  });

  test("the table, the saved picture and the paper have every note", async () => {
    const { page, context } = await open();
    await page.click("#chorus-page .as-table summary");
    await expect.poll(() => page.locator("#chorus-page tbody tr").count()).toBe(solo.length);
    const [download] = await Promise.all([
      page.waitForEvent("download"),
      page.click("#chorus-page .save button:has-text('SVG')"),
    ]);
    const chunks: Buffer[] = [];
    for await (const chunk of await download.createReadStream()) chunks.push(chunk as Buffer);
    const saved = Buffer.concat(chunks).toString();
    expect(new Set(saved.match(/data-note="[^"]+"/g)).size).toBe(solo.length);
    expect(await page.locator("#chorus-page .plot > svg.chorus-page").count()).toBe(1);

    await page.evaluate(() => window.dispatchEvent(new Event("beforeprint")));
    const printed = await page.$$eval("#chorus-page .plot > svg", (sheets: SVGSVGElement[]) =>
      sheets.map((sheet) => ({
        notes: [...sheet.querySelectorAll<SVGElement>(".sign")].map((one) => one.dataset.note!),
        chords: [...sheet.querySelectorAll(".chord")].length,
        ratio: sheet.viewBox.baseVal.height / sheet.viewBox.baseVal.width,
      })),
    );
    expect(printed.flatMap((sheet) => sheet.notes).sort()).toEqual(solo.map((note) => note.id).sort());
    for (const sheet of printed) {
      expect(sheet.chords).toBeGreaterThanOrEqual(12);
      // A letter page between margins of 14 mm is 188 by 251 mm.
      expect(sheet.ratio).toBeLessThanOrEqual(251 / 188);
    }
    await page.evaluate(() => window.dispatchEvent(new Event("afterprint")));
    await expect.poll(async () => (await looked(page)).drawn.length).toBeLessThan(solo.length / 2);
    await context.close();
  });
});
