import type { Page } from "playwright-core";
import { beforeAll, describe, expect, test } from "vitest";
import { indexAccount } from "../../client/shell/account-index.ts";
import { eventsOf, type Playing } from "../../client/sound/events.ts";
import { passagesOf } from "../../client/sound/passages.ts";
import type { Analysis } from "../../src/account.ts";
import { forget, type Sounded, soundedIn, watchSound } from "./sound-watch.ts";
import { hasChromium, openPage, readBy } from "./stage.ts";
import { staged } from "./staged.ts";

const ID = "bram-quick-change";

describe.skipIf(!hasChromium)("listening to a take in a browser", () => {
  const stage = staged();
  let analysis: Analysis;

  beforeAll(async () => {
    analysis = await (await fetch(`${stage.url}/api/takes/${ID}/analysis`)).json();
  });

  const open = async (query: string) => {
    const watched = await openPage(stage.browser, stage.url);
    await watchSound(watched.page);
    await watched.page.goto(`${stage.url}/#/takes/${ID}${query}`);
    await watched.page.waitForSelector(".chorus-page");
    await watched.page.click("text=With what, how fast");
    return watched;
  };
  const check = async (page: Page, label: string, on: boolean) => {
    const box = page.locator(`.play-choices label:has-text("${label}") input`);
    if ((await box.isChecked()) !== on) await box.click();
  };
  const playThrough = async (page: Page) => {
    await forget(page);
    await page.click(".play");
    await expect.poll(() => page.textContent(".play"), { timeout: 20_000 }).toBe("Stop");
    await expect.poll(() => page.textContent(".play"), { timeout: 30_000 }).toBe("Play");
    return soundedIn(page);
  };
  /** What should sound, as (pitch, seconds after the first sound), clicks with pitch null. */
  const wanted = (selection: Parameters<typeof passagesOf>[1], how: Partial<Playing>, speed = 1) => {
    const index = indexAccount(analysis);
    const playing = {
      backing: new Set<never>(),
      otherHand: false,
      speed,
      loop: false,
      timing: "played" as const,
      countIn: false,
      ...how,
    };
    const events = eventsOf(index, passagesOf(index, selection), playing);
    return places(
      events.map((event) => ({
        pitch: event.kind === "click" ? null : event.pitch,
        when: event.at / speed,
      })),
    );
  };
  const places = (sounds: readonly Pick<Sounded, "pitch" | "when">[]) => {
    const first = Math.min(...sounds.map((one) => one.when));
    return sounds
      .map(
        ({ pitch, when }) => `${(when - first).toFixed(3)} ${pitch === null ? "click" : Math.round(pitch)}`,
      )
      .sort();
  };

  test("plays the solo alone, at half speed and at the same pitches", async () => {
    const { page, context, trouble } = await open("?bar=1.5");
    await check(page, "recorded other hand", false);
    const usual = await playThrough(page);
    expect(places(usual)).toEqual(wanted({ kind: "bar", chorus: 1, bar: 5 }, {}));
    expect(usual.length).toBeGreaterThan(3);
    await page.selectOption(".play-choices select", "50");
    const slow = await playThrough(page);
    expect(places(slow)).toEqual(wanted({ kind: "bar", chorus: 1, bar: 5 }, {}, 0.5));
    expect(slow.map((one) => one.pitch)).toEqual(usual.map((one) => one.pitch));
    const length = (sounds: readonly Sounded[]) => sounds.at(-1)!.when - sounds[0]!.when;
    expect(length(slow) / length(usual)).toBeCloseTo(2, 3);
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("plays with the recorded other hand, click, walking bass and shells, each when it should", async () => {
    const { page, context, trouble } = await open("?bar=2.3");
    for (const label of ["recorded other hand", "click", "walking bass", "shells"])
      await check(page, label, true);
    const sounds = await playThrough(page);
    const bar = { kind: "bar", chorus: 2, bar: 3 } as const;
    expect(places(sounds)).toEqual(
      wanted(bar, { otherHand: true, backing: new Set(["click", "bass", "shells"]) }),
    );
    // One beat of the bar is told apart by a higher click.
    const clicks = sounds.filter((one) => one.hertz !== null).map((one) => one.hertz);
    expect(clicks).toHaveLength(4);
    expect(clicks[0]).toBeGreaterThan(clicks[1]!);
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("plays straightened and counted in, with its backing", async () => {
    const { page, context, trouble } = await open("?bar=1.5");
    for (const label of ["straightened", "counted in", "walking bass"]) await check(page, label, true);
    await check(page, "recorded other hand", false);
    const sounds = await playThrough(page);
    const even = { timing: "even", countIn: true, backing: new Set(["bass"] as const) } as const;
    expect(places(sounds)).toEqual(wanted({ kind: "bar", chorus: 1, bar: 5 }, even));
    const clicks = sounds.filter((one) => one.hertz !== null).sort((a, b) => a.when - b.when);
    const first = Math.min(...sounds.filter((one) => one.pitch !== null).map((one) => one.when));
    expect(clicks).toHaveLength(4);
    // A quarter lasts 60 / tempo seconds, and the count leads into the bar.
    const quarter = 60 / analysis.alignment.tempo!.median;
    expect(clicks[1]!.when - clicks[0]!.when).toBeCloseTo(quarter, 2);
    expect(first - clicks[3]!.when).toBeCloseTo(quarter, 1);
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("plays a motif and a finding where they are chosen", async () => {
    const motif = analysis.motifs[0]!;
    const { page, context, trouble } = await open(`?motif=${motif.id}`);
    await check(page, "recorded other hand", false);
    await page.click(".play");
    const first = motif.occurrences[0]!;
    const index = indexAccount(analysis);
    const opening = index.between(first.firstNote, first.lastNote).map((note) => note.pitch);
    await expect
      .poll(
        async () => (await soundedIn(page)).slice(0, opening.length).map((one) => Math.round(one.pitch!)),
        {
          timeout: 20_000,
        },
      )
      .toEqual(opening);
    await page.click(".play");
    await expect.poll(() => page.textContent(".play")).toBe("Play");

    const finding = analysis.findings.find((one) => one.bars.length > 0 && one.bars.length < 6)!;
    await page.goto(`${stage.url}/#/takes/${ID}?finding=${encodeURIComponent(finding.id)}`);
    await expect.poll(() => page.textContent(".play-what")).toBe("the bars of this finding");
    await forget(page);
    await page.click(".play");
    const start = passagesOf(index, { kind: "finding", finding: finding.id })[0]!;
    const heard = index.solo.find((note) => note.onset >= start.from - 0.005)!;
    await expect
      .poll(async () => Math.round((await soundedIn(page))[0]?.pitch ?? 0), { timeout: 20_000 })
      .toBe(heard.pitch);
    await page.click(".play");
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("goes round in a loop until it is stopped, and the cursor goes along in every picture", async () => {
    const { page, context, trouble } = await open("?bar=1.1");
    await check(page, "recorded other hand", false);
    await check(page, "again and again", true);
    await page.click("text=Engrave the staff");
    await page.waitForSelector(".engraved g.note", { timeout: 40_000 });
    await page.waitForSelector(".role-shares .column", { state: "attached" });
    await page.evaluate(() => window.scrollTo(0, 0));
    await page.mouse.move(2, 2);
    await page.click(".play");
    // One moment in which every picture shows where the sound is.
    await page.waitForFunction(
      () =>
        [
          ".chorus-page .ring.playing:not([display])",
          ".role-shares .share.under",
          ".engraved g.note.under",
        ].every((sign) => document.querySelector(sign)),
      null,
      { timeout: 30_000, polling: "raf" },
    );
    // Another reading is chosen while it sounds: the cursor is in its pictures too.
    await readBy(page, "register");
    await page.waitForSelector(".register .key.under", { timeout: 30_000 });
    await page.waitForSelector(".chorus-page .ring.playing:not([display])", { timeout: 30_000 });
    const round = wanted({ kind: "bar", chorus: 1, bar: 1 }, {}).length;
    await expect
      .poll(async () => (await soundedIn(page)).length, { timeout: 30_000 })
      .toBeGreaterThan(2 * round);
    const sounds = await soundedIn(page);
    const pitches = sounds.map((one) => Math.round(one.pitch!));
    expect(pitches.slice(round, 2 * round)).toEqual(pitches.slice(0, round));
    await page.click(".play");
    await expect.poll(() => page.textContent(".play")).toBe("Play");
    await expect.poll(() => page.locator(".ring.playing:not([display])").count()).toBe(0);
    expect(trouble).toEqual([]);
    await context.close();
  });
});
