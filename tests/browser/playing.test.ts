import { describe, expect, test } from "vitest";
import { soundedIn, watchSound } from "./sound-watch.ts";
import { hasChromium, keepOpenedTakes, openPage } from "./stage.ts";
import { staged } from "./staged.ts";

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
        const event = { bubbles: true, pointerId: 1, isPrimary: true } as const;
        key.parentElement!.setPointerCapture = () => {};
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

  test("opens again without the network once it was loaded", async () => {
    const context = await stage.browser.newContext({ viewport: { width: 1024, height: 800 } });
    const page = await context.newPage();
    await keepOpenedTakes(page, stage.url);
    await page.goto(`${stage.url}/#/takes/maren-lantern-yard`);
    await page.waitForSelector(".chorus-page");
    await context.setOffline(true);
    await page.reload();
    await page.waitForSelector(".chorus-page");
    expect(await page.locator(".chorus-page [data-note]").count()).toBeGreaterThan(50);
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
});
