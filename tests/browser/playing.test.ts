import { describe, expect, test } from "vitest";
import type { Analysis } from "../../src/account.ts";
import type { Exercise } from "../../src/practice/exercise.ts";
import { type Keyboards, plugKeyboards } from "./keyboards.ts";
import { soundedIn, watchSound } from "./sound-watch.ts";
import { hasChromium, keepOpenedTakes, openPage, settled } from "./stage.ts";
import { staged } from "./staged.ts";

declare const window: Window & { keyboards: Keyboards };

describe.skipIf(!hasChromium)("playing and listening in a browser", () => {
  const stage = staged();

  test("records from the computer's keys with a count-in, and the take stands where it was played", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    await page.goto(`${stage.url}/#/record`);
    await page.waitForSelector(".record-keys");
    await page.fill('[name="tempo"]', "300");
    await page.fill('[name="count-in"]', "1");
    await page.fill('[name="title"]', "By letters");
    await page.click(".hand-slot summary");
    await page.check('.shape-choices [value="third-and-steps"]');
    const map = page.waitForRequest((request) => request.url().includes("/api/placements"));
    await page.click("button.main");
    await page.waitForSelector(".now-playing:has-text('Chorus 1, bar 1')");
    // Where the hand may stand is shown for the shapes that the take will be explained by.
    expect(new URL((await map).url()).searchParams.getAll("shape")).toEqual(["third-and-steps"]);
    for (const key of ["f", "g", "h", "f", "k", "h"]) await page.keyboard.press(key, { delay: 90 });
    await page.waitForSelector(".now-playing:has-text('bar 8')");
    await page.click("button:has-text('Stop and analyse')");
    await page.waitForSelector(".take-head h1:has-text('By letters')");
    const id = /takes\/([^?]+)/.exec(page.url())![1];
    const analysis = await (await fetch(`${stage.url}/api/takes/${id}/analysis`)).json();
    expect(analysis.options).toMatchObject({ shapes: ["third-and-steps"], method: "click" });
    const solo = analysis.notes.filter((note: { solo: boolean }) => note.solo);
    // F, G, A, F, C, A from middle C up: MIDI 65 67 69 65 72 69.
    expect(solo.map((note: { pitch: number }) => note.pitch)).toEqual([65, 67, 69, 65, 72, 69]);
    expect(solo[0]).toMatchObject({ chorus: 1 });
    expect(solo[0].bar).toBeLessThanOrEqual(2);
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("names each key in the very message that presses it, puts it into the row, and keeps still when muted", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url, { width: 390, height: 844 });
    await page.goto(
      `${stage.url}/#/record?chart=${encodeURIComponent("key: C\nidiom: blues\n|:8 C7 :|")}&player=tilda`,
    );
    await page.waitForSelector(".record-keys");
    expect(await page.inputValue('[name="player"]')).toBe("Tilda");
    // A finger finds each white key: at least 24 pixels.
    const white = await page.locator('.record-keys [data-pitch="60"]').boundingBox();
    expect(white!.width).toBeGreaterThanOrEqual(24);
    await page.fill('[name="tempo"]', "240");
    await page.fill('[name="count-in"]', "1");
    await page.click("button.main");
    await page.waitForSelector(".now-playing:has-text('Chorus 1, bar 1')");
    // Within one task: no frame is drawn and no timer runs between the press and the name.
    const said = await page.evaluate(() =>
      [60, 63, 65].map((pitch) => {
        const key = document.querySelector(`.record-keys [data-pitch="${pitch}"]`)!;
        const { left, width, bottom } = key.getBoundingClientRect();
        const at = { clientX: left + width / 2, clientY: bottom - 4 - (pitch === 63 ? 12 : 0) };
        const event = { bubbles: true, pointerId: 1, isPrimary: true, ...at } as const;
        key.closest("svg")!.setPointerCapture = () => {};
        key.dispatchEvent(new PointerEvent("pointerdown", event));
        const name = document.querySelector(".named-key")!.textContent;
        key.dispatchEvent(new PointerEvent("pointerup", event));
        return name;
      }),
    );
    expect(said).toEqual([
      "1 of C7: root, in the placement",
      "♭3 of C7: blue note, in the placement",
      "11 of C7: avoid note, out of the placement",
    ]);
    expect(await page.locator(".going-by .sign").count()).toBe(3);
    await page.click("button:has-text('Stop and analyse')");
    await page.waitForSelector(".take-head h1");

    await page.goto(`${stage.url}/#/record?chart=${encodeURIComponent("key: C\n|:8 C7 :|")}`);
    await page.waitForSelector(".record-keys");
    await page.uncheck("text=name each key as I play");
    await page.fill('[name="tempo"]', "240");
    await page.fill('[name="count-in"]', "1");
    await page.click("button.main");
    await page.waitForSelector(".now-playing:has-text('Chorus 1, bar 1')");
    await page.keyboard.press("a", { delay: 60 });
    await page.waitForSelector(".going-by .muted-note", { state: "attached" });
    expect(await page.textContent(".named-key")).toBe("");
    expect(await page.locator(".going-by .sign").count()).toBe(0);
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("can be started where it is opened, on a phone, a tablet and a screen, with nothing over the keys", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url, { width: 390, height: 844 });
    await page.goto(`${stage.url}/#/record`);
    for (const [width, height] of [
      [390, 844],
      [1024, 768],
      [1440, 900],
    ] as const) {
      await page.setViewportSize({ width, height });
      await page.waitForSelector(".record-keys [data-pitch]");
      await settled(page);
      const seen = await page.evaluate(() => {
        const middle = (element: Element) => {
          const { left, right, top, bottom } = element.getBoundingClientRect();
          return document.elementFromPoint((left + right) / 2, bottom - Math.min(4, (bottom - top) / 2));
        };
        const start = [...document.querySelectorAll("button.main")].find(
          (one) => one.textContent === "Start",
        )!;
        const keys = [...document.querySelectorAll(".record-keys .key")];
        return {
          start: start.contains(middle(start)),
          // A black key that is drawn over a white one is that one's neighbour, not a cover.
          covered: keys.filter((key) => !middle(key)?.closest(".record-keys")).length,
          narrowest: Math.min(
            ...keys.filter((key) => key.matches(".white")).map((key) => key.getBoundingClientRect().width),
          ),
          wide: document.documentElement.scrollWidth,
        };
      });
      // WCAG 2.2, 2.5.8: targets of 24 CSS pixels.
      expect(seen, String(width)).toMatchObject({ start: true, covered: 0, wide: width });
      expect(seen.narrowest, String(width)).toBeGreaterThanOrEqual(24);
    }
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("loops chosen bars with the click on two and four, and the take is of those bars", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    await watchSound(page);
    await page.goto(
      `${stage.url}/#/record?chart=${encodeURIComponent("key: C\n| C6 | A7 | Dm7 G7 | Em7 |")}`,
    );
    const bars = page.locator(".going-by .bar-now");
    await bars.first().waitFor();
    // By touch from one end, by the keyboard to the other.
    await bars.nth(2).click();
    await page.waitForSelector(".loop-words:has-text('Bar 3 goes round')");
    await bars.first().focus();
    await page.keyboard.press("ArrowRight");
    await page.keyboard.press("Enter");
    await page.waitForSelector(".loop-words:has-text('Bars 2 to 3 go round')");
    await page.selectOption('[name="click"]', "two and four");
    await page.uncheck("text=walking bass");
    await page.uncheck("text=let me hear what I play");
    await page.fill('[name="tempo"]', "240");
    await page.fill('[name="count-in"]', "1");
    await page.click("button.main:has-text('Start')");
    await page.waitForSelector(".now-playing:has-text('Round 1, bar 3')");
    await page.keyboard.press("d", { delay: 60 });
    await page.waitForSelector(".now-playing:has-text('Round 2, bar 2')");
    await page.click("button:has-text('Stop and analyse')");
    await page.waitForSelector(".take-head h1");
    const clicks = (await soundedIn(page)).filter(({ hertz }) => hertz !== null).map(({ when }) => when);
    // Counted in on every beat of 0.25 s; then on the second and the fourth, half a second apart, never on the first.
    const steps = clicks.slice(1, 9).map((when, i) => Number((when - clicks[i]!).toFixed(3)));
    expect(steps).toEqual([0.25, 0.25, 0.25, 0.5, 0.5, 0.5, 0.5, 0.5]);
    const id = /takes\/([^?]+)/.exec(page.url())![1];
    const { chart, alignment } = (await (
      await fetch(`${stage.url}/api/takes/${id}/analysis`)
    ).json()) as Analysis;
    expect(chart.bars.map((bar) => bar.chords.map(({ symbol }) => symbol))).toEqual([["A7"], ["Dm7", "G7"]]);
    expect(alignment.bars[0]).toMatchObject({ chorus: 1, bar: 1, start: 1, end: 2 });
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("plays a chosen bar with bass and click, and the cursor goes along", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    await page.goto(`${stage.url}/#/takes/maren-lantern-yard?bar=1.5`);
    await page.waitForSelector(".chorus-page");
    await page.click("text=With what, how fast");
    await page.click("text=walking bass");
    await page.click(".play");
    await page.waitForSelector(".chorus-page .ring.playing:not([display])", {
      state: "attached",
      timeout: 20_000,
    });
    await expect.poll(() => page.textContent(".play"), { timeout: 20_000 }).toBe("Play");
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("is installed as the browser asks of a page, and opens and records without the network", async () => {
    const context = await stage.browser.newContext({ viewport: { width: 1024, height: 800 } });
    const page = await context.newPage();
    await keepOpenedTakes(page, stage.url);
    // What Chromium itself asks of a page before it offers to install it; a window of a test is a private one.
    const devtools = await context.newCDPSession(page);
    const { installabilityErrors } = await devtools.send("Page.getInstallabilityErrors");
    expect(installabilityErrors.filter(({ errorId }) => errorId !== "in-incognito")).toEqual([]);
    const { url, errors } = await devtools.send("Page.getAppManifest");
    expect([new URL(url).pathname, errors]).toEqual(["/manifest.webmanifest", []]);
    const icons = await page.evaluate(async () => {
      const manifest = await (await fetch("/manifest.webmanifest")).json();
      return Promise.all(
        (manifest.icons as { src: string; sizes: string; type: string }[])
          .filter(({ type }) => type === "image/png")
          .map(async ({ src, sizes }) => {
            const image = new Image();
            image.src = src;
            await image.decode();
            return `${image.naturalWidth}x${image.naturalHeight}` === sizes;
          }),
      );
    });
    expect(icons).toEqual([true, true, true]);
    await page.goto(`${stage.url}/#/takes/maren-lantern-yard`);
    await page.waitForSelector(".chorus-page");
    await context.setOffline(true);
    await page.reload();
    await page.waitForSelector(".chorus-page");
    expect(await page.locator(".chorus-page [data-note]").count()).toBeGreaterThan(50);
    await page.goto(`${stage.url}/#/record`);
    await page.fill('[name="tempo"]', "300");
    await page.fill('[name="count-in"]', "1");
    await page.click("button.main:has-text('Start')");
    await page.waitForSelector(".now-playing:has-text('Chorus 1, bar 1')");
    await page.locator(".record-stage h1").click();
    await page.keyboard.press("a", { delay: 60 });
    await page.click("button:has-text('Stop and analyse')");
    await page.waitForSelector(".unsent:has-text('Not sent yet: one recording')");
    await context.close();
  });

  test("plays an exercise where it stands, counted in, with its click, until it is stopped", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    await watchSound(page);
    const id = "bram-quick-change";
    const sheet = await (await fetch(`${stage.url}/api/takes/${id}/practice`)).json();
    const [exercise] = sheet.exercises as { bars: { notes: { pitch: number; slide: string | null }[] }[] }[];
    const pitches = exercise!.bars.flatMap(({ notes }) => notes.map(({ pitch }) => pitch));
    await page.goto(`${stage.url}/#/takes/${id}/practice`);
    const player = page.locator(".exercise-player").first();
    await player.waitFor({ timeout: 60_000 });
    await player.getByRole("button", { name: "Play" }).click();
    const played = async () => (await soundedIn(page)).filter(({ pitch }) => pitch !== null);
    await expect.poll(async () => (await played()).length, { timeout: 30_000 }).toBe(pitches.length);
    const sounds = await soundedIn(page);
    expect((await played()).map(({ pitch }) => Math.round(pitch!)).sort()).toEqual([...pitches].sort());
    // A bar of four is counted in before the first note, its one higher than the others.
    const clicks = sounds.filter(({ hertz }) => hertz !== null).sort((a, b) => a.when - b.when);
    const first = Math.min(...(await played()).map(({ when }) => when));
    expect(clicks.filter(({ when }) => when < first - 0.01).length).toBeGreaterThanOrEqual(4);
    expect(clicks[0]!.hertz).toBeGreaterThan(clicks[1]!.hertz!);
    await player.getByRole("button", { name: "Stop" }).click();
    await player.getByRole("button", { name: "Play" }).waitFor();
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("hears an exercise played, judges each key at once, and tells at the end what was met", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    await plugKeyboards(page, ["Stage piano"]);
    const id = "bram-quick-change";
    const sheet = await (await fetch(`${stage.url}/api/takes/${id}/practice`)).json();
    const exercise = sheet.exercises[0] as Exercise;
    await page.goto(`${stage.url}/#/takes/${id}/practice`);
    const block = page.locator(".exercise").first();
    await block.locator(".exercise-player").waitFor({ timeout: 60_000 });
    const tempo = Number(
      (await block.locator("select[aria-label='Step of the tempo plan']").inputValue()).split(",")[0],
    );
    const [first] = exercise.bars.flatMap(({ notes }, bar) =>
      notes.filter(({ slide }) => slide !== "from").map(({ pitch, at }) => ({ pitch, at: at + 4 * bar })),
    );
    // Struck by the page itself, so that a busy machine does not miss the moment at which a key is right: a key that no
    // exercise has as soon as the round is heard, then the first of the exercise.
    const struck = page.evaluate(
      async ({ pitch, patience }) => {
        const said = () => document.querySelector(".answer-said")?.textContent ?? "";
        const strikeUntil = async (key: number, wanted: RegExp) => {
          for (const until = performance.now() + patience; !wanted.test(said()); ) {
            if (performance.now() > until) break;
            window.keyboards.send("Stage piano", [0x90, key, 80], performance.now());
            await new Promise((drawn) => requestAnimationFrame(drawn));
          }
          return said();
        };
        return [await strikeUntil(21, /not in the exercise/), await strikeUntil(pitch, /: right/)];
      },
      { pitch: first!.pitch, patience: 30_000 + (60_000 / tempo) * (6 + first!.at) },
    );
    await block.getByRole("button", { name: "Your turn" }).click();
    await block.locator(".record-keys .key").first().waitFor();
    const [wrong, right] = await struck;
    expect(wrong).toMatch(/not in the exercise/);
    expect(right).toMatch(/: right/);
    await block.getByRole("button", { name: "Stop" }).click();
    const notes = exercise.bars.flatMap((bar) => bar.notes.filter(({ slide }) => slide !== "from")).length;
    await expect
      .poll(() => block.locator(".answer-told").textContent())
      .toMatch(new RegExp(`^[1-9]\\d* of ${notes} notes met.*Not in it: `));
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("turns the pages of a practice sheet by pedal and by the outermost keys", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url, { width: 1024, height: 700 });
    await plugKeyboards(page, ["Stage piano"]);
    await page.goto(`${stage.url}/#/takes/bram-quick-change/practice`);
    await page.locator(".exercise").nth(1).waitFor({ timeout: 60_000 });
    await page.click("text=Turn pages by foot");
    await page.waitForSelector(".page-turner:has-text('Stage piano')");
    const press = (bytes: readonly number[]) =>
      page.evaluate((sent) => {
        const before = scrollY;
        window.keyboards.send("Stage piano", sent, performance.now());
        return scrollY - before;
      }, bytes);
    expect(await press([0xb0, 64, 127])).toBeGreaterThan(50);
    expect(await press([0xb0, 64, 0])).toBe(0);
    expect(await press([0x90, 108, 60])).toBeGreaterThan(50);
    expect(await press([0x90, 21, 60])).toBeLessThan(-50);
    expect(await press([0xb0, 67, 127])).toBeLessThan(-50);
    expect(trouble).toEqual([]);
    await context.close();
  });
});
