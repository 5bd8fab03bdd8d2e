import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { hasChromium, openPage } from "./stage.ts";
import { staged } from "./staged.ts";

/** Inch of paper in CSS pixels and in points (CSS Values 4, 6.2). */
const [PIXELS, POINTS] = [96, 72];

/**
 * Words of the engraver's drawings that run through each other or out of their picture. The box of a word is that of its
 * letters: from the tops of capitals to the base line, which in both fonts of the page lie at about a quarter and at
 * three quarters of the line. Signs of the music font have boxes as high as the font, so they are left to their words.
 */
const collisions = (page: Page): Promise<string[]> =>
  page.$$eval("svg.engraved", (drawings) =>
    drawings.flatMap((svg) => {
      const frame = svg.getBoundingClientRect();
      const words = [...svg.querySelectorAll("text")].flatMap((text) => {
        const kind =
          text.closest("g.harm,g.dir,g.reh,g.fing,g.verse,g.mNum")?.getAttribute("class") ?? "head";
        const leaves = [...text.querySelectorAll("tspan")].filter(
          (leaf) =>
            leaf.querySelector("tspan") === null &&
            (leaf.textContent ?? "").trim() !== "" &&
            !/Leipzig/.test(getComputedStyle(leaf).fontFamily),
        );
        return (leaves.length > 0 ? leaves : [text]).map((leaf) => {
          const { left, right, top, height } = leaf.getBoundingClientRect();
          const said = `${kind} "${(text.textContent ?? "").replace(/\s+/g, " ").trim()}"`;
          return { text, said, left, right, top: top + 0.25 * height, bottom: top + 0.75 * height };
        });
      });
      const seen = words.filter(({ left, right }) => right > left);
      const cut = seen.filter(({ left, right }) => left < frame.left - 0.5 || right > frame.right + 0.5);
      const through = seen.flatMap((a, i) =>
        seen
          .slice(i + 1)
          .filter(
            (b) =>
              a.text !== b.text &&
              Math.min(a.right, b.right) - Math.max(a.left, b.left) > 1 &&
              Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 1,
          )
          .map((b) => `${a.said} through ${b.said}`),
      );
      return [...cut.map(({ said }) => `cut: ${said}`), ...through];
    }),
  );

/** Words of three bars in a row that stand each a line of words lower than those before them. */
const stairs = (page: Page): Promise<string[]> =>
  page.$$eval("svg.engraved g.system", (systems) =>
    systems.flatMap((system) => {
      const words = [...system.querySelectorAll("g.dir")].map((one) => ({
        said: (one.textContent ?? "").replace(/\s+/g, " ").trim(),
        box: one.querySelector("text")!.getBoundingClientRect(),
      }));
      const down = (i: number) => words[i]!.box.top - words[i - 1]!.box.top > 8;
      return words.flatMap(({ said }, i) => (i >= 2 && down(i - 1) && down(i) ? [said] : []));
    }),
  );

describe.skipIf(!hasChromium)("what is engraved can be handed out", { timeout: 300_000 }, () => {
  const stage = staged();
  const takes = async () =>
    ((await (await fetch(`${stage.url}/api/takes`)).json()) as { takes: { id: string; method: string }[] })
      .takes;

  /** Within one page: the engraver is loaded once, not for each take. */
  const go = (page: Page, address: string) => page.goto(`${stage.url}/#/${address}`);

  test("in no exercise of the class do words, fingers, chords and tempo run through each other; nothing is cut", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    let exercises = 0;
    for (const { id } of await takes()) {
      await go(page, `takes/${id}/practice`);
      await page.waitForSelector(`h1:has-text('Practice sheet')`);
      await page.waitForSelector(".exercise, .practice-sheet .empty", { timeout: 60_000 });
      await page.waitForFunction(() => document.querySelector(".exercise-staff .hint") === null, null, {
        timeout: 90_000,
      });
      await page.evaluate(() => document.fonts.ready);
      exercises += await page.locator(".exercise").count();
      expect(await collisions(page), id).toEqual([]);
      expect(await stairs(page), id).toEqual([]);
      await go(page, "lenses");
      await page.waitForSelector("h1:has-text('Lenses')");
    }
    expect(exercises).toBeGreaterThan(25);
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("an exercise is drawn in the ink of the page, in the dark too", async () => {
    const { page, context } = await openPage(stage.browser, stage.url, { dark: true });
    await page.goto(`${stage.url}/#/takes/tilda-week-8/practice`);
    await page.waitForSelector(".exercise .engraved", { timeout: 60_000 });
    const ink = await page.evaluate(() => getComputedStyle(document.body).color);
    const drawn = await page.$$eval(
      ".engraved g.staff > path, .engraved g.stem path, .engraved g.notehead use",
      (all) => all.map((one) => [getComputedStyle(one).fill, getComputedStyle(one).stroke]),
    );
    expect(drawn.length).toBeGreaterThan(20);
    for (const colours of drawn) expect(colours).toEqual([ink, ink]);
    await context.close();
  });

  test("in no staff of a take either", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    for (const { id, method } of await takes()) {
      if (method === "rubato") continue;
      await go(page, `takes/${id}`);
      await page.click("text=Engrave the staff");
      await page.waitForSelector(".engraved g.note", { timeout: 90_000 });
      await page.evaluate(() => document.fonts.ready);
      expect(await collisions(page), id).toEqual([]);
      await go(page, "lenses");
      await page.waitForSelector("h1:has-text('Lenses')");
    }
    expect(trouble).toEqual([]);
    await context.close();
  });

  test.each([
    ["a4", 210],
    ["letter", 215.9],
  ])(
    "on %s fingers have at least nine points, a line four or five bars, and the choice is kept",
    async (paper, millimetres) => {
      const { page, context } = await openPage(stage.browser, stage.url);
      await page.goto(`${stage.url}/#/takes/bram-quick-change/practice`);
      await page.waitForSelector(".exercise .engraved", { timeout: 60_000 });
      await page.selectOption('[name="paper"]', paper);
      await page.reload();
      await page.waitForSelector(".exercise:last-of-type .engraved", { timeout: 60_000 });
      expect(await page.inputValue('[name="paper"]')).toBe(paper);
      // As wide as the paper between its margins of 14 mm (styles/lesson.css).
      const width = Math.round(((millimetres - 28) / 25.4) * PIXELS);
      await page.emulateMedia({ media: "print" });
      await page.setViewportSize({ width, height: 1000 });
      const fingers = await page.$$eval(".engraved g.fing tspan", (all) =>
        all
          .filter((one) => one.querySelector("tspan") === null)
          .map(
            (one) =>
              Number.parseFloat(getComputedStyle(one).fontSize) * (one as SVGTSpanElement).getScreenCTM()!.a,
          ),
      );
      expect(fingers.length).toBeGreaterThan(50);
      for (const pixels of fingers) expect((pixels * POINTS) / PIXELS).toBeGreaterThanOrEqual(9);
      const lines = await page.$$eval(".engraved g.system", (all) =>
        all.map((system) => system.querySelectorAll("g.measure").length),
      );
      for (const bars of lines) expect(bars).toBeLessThanOrEqual(5);
      await context.close();
    },
  );

  test("a take's staff is engraved again for paper: fingers of nine points, a page no taller than letter", async () => {
    const { page, context } = await openPage(stage.browser, stage.url);
    await page.goto(`${stage.url}/#/takes/bram-quick-change`);
    await page.click("text=Engrave the staff");
    await page.waitForSelector(".staff .engraved", { timeout: 60_000 });
    const paper = () =>
      page.evaluate(() => {
        window.dispatchEvent(new Event("beforeprint"));
        return document.querySelectorAll(".staff > div > .engraved").length;
      });
    await expect.poll(paper, { timeout: 60_000 }).toBeGreaterThan(0);
    await page.emulateMedia({ media: "print" });
    // Letter between its margins of 14 mm.
    await page.setViewportSize({ width: Math.round(((216 - 28) / 25.4) * PIXELS), height: 1000 });
    const drawn = await page.$$eval(".staff .engraved", (all) =>
      all.map((svg) => ({
        height: svg.getBoundingClientRect().height,
        notes: [...svg.querySelectorAll<SVGElement>("g.note[data-note]")].map((note) => note.dataset.note!),
        fingers: [...svg.querySelectorAll<SVGTSpanElement>("g.fing tspan")]
          .filter((one) => one.querySelector("tspan") === null)
          .map((one) => Number.parseFloat(getComputedStyle(one).fontSize) * one.getScreenCTM()!.a),
      })),
    );
    expect(drawn.flatMap((one) => one.fingers).length).toBeGreaterThan(50);
    for (const { height, fingers } of drawn) {
      expect(height).toBeLessThan(((279 - 28) / 25.4) * PIXELS);
      for (const pixels of fingers) expect((pixels * POINTS) / PIXELS).toBeGreaterThanOrEqual(9);
    }
    const solo = await page.evaluate(async () => {
      const { notes } = await (await fetch("/api/takes/bram-quick-change/analysis")).json();
      return notes.filter((note: { solo: boolean }) => note.solo).map((note: { id: string }) => note.id);
    });
    expect(new Set(drawn.flatMap((one) => one.notes))).toEqual(new Set(solo));
    // No line of a finding is cut off, and what is folded leaves no word.
    expect(
      await page.$$eval(".finding-line .finding-text", (lines) =>
        lines.filter((line) => line.scrollWidth > line.clientWidth + 1).map((line) => line.textContent),
      ),
    ).toEqual([]);
    expect(await page.isVisible("text=What the hand tells")).toBe(false);
    // Room for the player's bar, which is not printed, would be an empty page.
    expect(await page.$eval(".margin", (one) => getComputedStyle(one).paddingBottom)).toBe("0px");
    expect(await collisions(page)).toEqual([]);
    await page.evaluate(() => window.dispatchEvent(new Event("afterprint")));
    expect(await page.locator(".staff > .engraved").count()).toBeGreaterThan(0);
    await context.close();
  });
});
