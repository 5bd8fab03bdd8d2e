import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { printedText } from "../../client/findings/finding-words.ts";
import type { Analysis } from "../../src/account.ts";
import { hasChromium, openPage, readBy } from "./stage.ts";
import { staged } from "./staged.ts";

// Skipped by name where Chromium is not installed; the check of a submission installs it.
describe.skipIf(!hasChromium)("the take page in a browser", () => {
  const stage = staged();

  const account = async (id: string) =>
    (await (await fetch(`${stage.url}/api/takes/${id}/analysis`)).json()) as Analysis;

  test.each(["maren-lantern-yard", "maren-rubato"])("offers only files that there are: %s", async (id) => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    await page.goto(`${stage.url}/#/takes/${id}`);
    await page.waitForSelector(".chorus-page");
    const files = await page.$$eval("a[download]", (links) =>
      links.map((link) => (link as HTMLAnchorElement).href),
    );
    expect(files.length).toBeGreaterThan(2);
    for (const file of files) expect((await fetch(file)).status, file).toBe(200);
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("shows in every reading the numbers of the account", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    const id = "maren-lantern-yard";
    const analysis = await account(id);
    const solo = analysis.notes.filter((note) => note.solo);
    await page.goto(`${stage.url}/#/takes/${id}`);
    await page.waitForSelector(".chorus-page");
    await page.waitForSelector(".role-shares .column");
    const drawn = await page.$$eval(".chorus-page [data-note]", (signs) =>
      signs.map((sign) => {
        const { note, pitch, role, lineRole } = (sign as SVGElement).dataset;
        return [note, Number(pitch), role, lineRole];
      }),
    );
    expect(drawn).toEqual(solo.map((note) => [note.id, note.pitch, note.role, note.lineRole]));

    const shares = await page.$$eval(".role-shares .column", (columns) =>
      columns.map((column) =>
        Object.fromEntries(
          [...column.querySelectorAll<SVGElement>("[data-share]")]
            .filter((bar) => Number(bar.dataset.share) > 0)
            .map((bar) => [bar.dataset.role, Number(bar.dataset.share)]),
        ),
      ),
    );
    expect(shares).toEqual(
      analysis.choruses.map((chorus) =>
        Object.fromEntries(Object.entries(chorus.roles).filter(([, share]) => share > 0)),
      ),
    );
    // The bars' lengths stand to each other as the shares do.
    const lengths = await page.$$eval(".role-shares [data-share]", (bars) =>
      bars.map(
        (bar) => [Number((bar as SVGElement).dataset.share), Number(bar.getAttribute("width"))] as const,
      ),
    );
    const longest = lengths.reduce((a, b) => (b[0] > a[0] ? b : a));
    for (const [share, length] of lengths) {
      if (share > 0) expect(Math.abs(length - (share / longest[0]) * longest[1])).toBeLessThan(1.1);
    }

    await readBy(page, "register");
    await page.waitForSelector("svg.register");
    for (const place of [".chorus-page", "svg.register"]) {
      const bins = await page.$$eval(`${place} .register-row`, (rows) =>
        rows.map((row) =>
          [...row.querySelectorAll<SVGElement>(".bin")].map((bin) => ({
            pitch: Number(bin.dataset.pitch),
            notes: Number(bin.dataset.notes),
          })),
        ),
      );
      expect(bins).toEqual(analysis.choruses.map((chorus) => chorus.register.histogram));
    }

    await readBy(page, "hand");
    // A placement that lasts into the next line or chorus stands in both.
    const held = new Map<string, number>();
    for (const [id, notes] of await page.$$eval(".chorus-page .bracket", (all) =>
      all.map(
        (one) => [(one as SVGElement).dataset.placement!, Number((one as SVGElement).dataset.notes)] as const,
      ),
    )) {
      held.set(id, (held.get(id) ?? 0) + notes);
    }
    expect(Object.fromEntries(held)).toEqual(
      Object.fromEntries(analysis.placements.map((p) => [p.id, p.notes])),
    );
    await readBy(page, "line");
    const arcs = await page.$$eval(".arc", (all) => all.map((one) => (one as SVGElement).dataset.phrase));
    expect([...new Set(arcs)]).toEqual(analysis.phrases.map((phrase) => phrase.id));
    await readBy(page, "ideas");
    await page.waitForSelector("svg.motif-list");
    const lanes = await page.$$eval(".lane", (all) => all.map((one) => (one as SVGElement).dataset.motif));
    expect(lanes).toEqual(analysis.motifs.map((motif) => motif.id));
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("stands the same bar of every chorus in one column", async () => {
    const { page, context } = await openPage(stage.browser, stage.url);
    await page.goto(`${stage.url}/#/takes/maren-lantern-yard`);
    await page.waitForSelector(".chorus-page");
    const columns = await page.$$eval(".chorus-page .field", (fields) =>
      fields.map((field) => [(field as SVGElement).dataset.bar, field.getAttribute("x")] as const),
    );
    const byBar = new Map<string, Set<string>>();
    for (const [bar, x] of columns) byBar.set(bar!, (byBar.get(bar!) ?? new Set()).add(x!));
    for (const places of byBar.values()) expect(places.size).toBe(1);
    await context.close();
  });

  test("says the note's sentence under the pointer and under the keyboard, and keeps the selection in the address", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    const id = "maren-lantern-yard";
    const analysis = await account(id);
    const solo = analysis.notes.filter((note) => note.solo);
    await page.goto(`${stage.url}/#/takes/${id}`);
    await page.waitForSelector(".chorus-page");
    const third = page.locator(`.chorus-page [data-note="${solo[2]!.id}"]`);
    await third.hover({ force: true });
    await expect.poll(() => page.textContent(".reading .sentence")).toBe(printedText(solo[2]!.account));

    await page.mouse.move(2, 2);
    await page.focus("#chorus-page .plot");
    for (let i = 0; i < 4; i++) await page.keyboard.press("ArrowRight");
    expect(await page.textContent(".reading .sentence")).toBe(printedText(solo[3]!.account));
    expect(page.url()).toContain(`note=${solo[3]!.id}`);
    await page.keyboard.press("b");
    expect(page.url()).toContain(`bar=${solo[3]!.chorus}.${solo[3]!.bar}`);
    await page.keyboard.press("c");
    expect(page.url()).toContain("chorus=1");
    await page.keyboard.press("Escape");
    expect(page.url()).not.toContain("?");

    await page.goto(`${stage.url}/#/takes/${id}?note=${solo[9]!.id}`);
    await page.reload();
    await expect.poll(() => page.textContent(".reading .sentence")).toBe(printedText(solo[9]!.account));
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("lights the notes of a placement that is chosen in the reading of the hand", async () => {
    const { page, context } = await openPage(stage.browser, stage.url);
    const id = "maren-lantern-yard";
    const analysis = await account(id);
    const placement = analysis.placements[1]!;
    await page.goto(`${stage.url}/#/takes/${id}?reading=hand`);
    await page.waitForSelector(".chorus-page .bracket");
    await page.locator(`[data-placement="${placement.id}"] .anchor`).first().click({ force: true });
    const lit = await page.$$eval(".chorus-page .sign.on", (signs) =>
      signs.map((s) => (s as SVGElement).dataset.note),
    );
    expect(lit.sort()).toEqual(
      analysis.notes
        .filter((note) => note.placement === placement.id)
        .map((note) => note.id)
        .sort(),
    );
    await context.close();
  });

  test("takes a dropped file to its page by the keyboard alone, and has an answer to a wrong one", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    await page.goto(`${stage.url}/`);
    await page.waitForSelector(".take-link");
    const before = await page.locator(".take-link").count();
    await page.setInputFiles("#take-files", {
      name: "letter.mid",
      mimeType: "audio/midi",
      buffer: Buffer.from("Dear teacher"),
    });
    await page.focus(".add button.main");
    await page.keyboard.press("Enter");
    await page.waitForSelector(".refusal-what");
    expect((await page.textContent(".refusal-what"))?.length).toBeGreaterThan(10);
    await page.click('[aria-label="Leave out letter.mid"]');

    const source = readFileSync(join(import.meta.dirname, "../../corpus/takes/jonas-pickup.mid"));
    await page.setInputFiles("#take-files", { name: "kitchen.mid", mimeType: "audio/midi", buffer: source });
    await page.fill('[name="player"]', "Nora");
    await page.focus(".add button.main");
    await page.keyboard.press("Enter");
    await page.waitForSelector(".take-meta");
    expect(page.url()).toMatch(/#\/takes\/.+/);
    expect(await page.textContent(".take-meta")).toContain("Nora");

    await page.goto(`${stage.url}/#/`);
    await page.waitForSelector(".player");
    expect(await page.locator(".take-link").count()).toBe(before + 1);
    await page.click('[aria-label="Delete kitchen"]');
    await expect.poll(() => page.locator(".take-link").count()).toBe(before);
    await page.click(".notice button");
    await expect.poll(() => page.locator(".take-link").count()).toBe(before + 1);
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("re-aligns when a bar line is dragged, and keeps the anchor", async () => {
    const { page, context } = await openPage(stage.browser, stage.url);
    const id = "tilda-week-8";
    const before = await account(id);
    await page.goto(`${stage.url}/#/takes/${id}`);
    await page.waitForSelector("[data-handle]");
    const handle = page.locator('[data-handle="1.5"]');
    const box = (await handle.boundingBox())!;
    await page.mouse.move(box.x + box.width / 2, box.y + 8);
    await page.mouse.down();
    await page.mouse.move(box.x + box.width / 2 + 9, box.y + 8, { steps: 4 });
    await page.mouse.up();
    await page.waitForSelector(".notice:has-text('pinned')");
    const after = await account(id);
    expect(after.alignment.anchors).toHaveLength(1);
    expect(after.alignment.anchors[0]).toMatchObject({ chorus: 1, bar: 5, beat: 1 });
    const start = (analysis: Analysis) =>
      analysis.alignment.bars.find((bar) => bar.chorus === 1 && bar.bar === 5)!.start;
    expect(start(after)).toBeGreaterThan(start(before));
    expect(start(after)).toBeCloseTo(after.alignment.anchors[0]!.seconds, 2);
    await context.close();
  });

  test("saves a picture as SVG with its styles, and as PNG", async () => {
    const { page, context } = await openPage(stage.browser, stage.url);
    await page.goto(`${stage.url}/#/takes/maren-lantern-yard`);
    await page.waitForSelector(".chorus-page");
    const [svg] = await Promise.all([
      page.waitForEvent("download"),
      page.click('#chorus-page [aria-label="Save picture as SVG"]'),
    ]);
    const text = readFileSync(await svg.path(), "utf8");
    expect(text).toMatch(/^<svg [^>]*xmlns="http:\/\/www\.w3\.org\/2000\/svg"/);
    expect(text).toContain("<title>");
    expect(text).not.toContain("class=");
    expect(text).toMatch(/fill="rgb/);
    const [png] = await Promise.all([
      page.waitForEvent("download"),
      page.click('#chorus-page [aria-label="Save picture as PNG"]'),
    ]);
    const bytes = readFileSync(await png.path());
    // PNG signature: W3C Portable Network Graphics (3rd edition), 5.2.
    expect([...bytes.subarray(0, 8)]).toEqual([137, 80, 78, 71, 13, 10, 26, 10]);
    expect(bytes.length).toBeGreaterThan(8000);
    await context.close();
  });
});
