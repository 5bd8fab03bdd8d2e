import { readFileSync } from "node:fs";
import { parseMidi } from "midi-file";
import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import type { Analysis } from "../../src/account.ts";
import { type Keyboards, plugKeyboards } from "./keyboards.ts";
import { soundedIn, watchSound } from "./sound-watch.ts";
import { hasChromium, openPage } from "./stage.ts";
import { staged } from "./staged.ts";

declare const window: Window & {
  keyboards: Keyboards;
  /** Clicks that were given to the instrument, with the seconds of its clock. */
  clicks: { context: AudioContext; when: number }[];
};

/** Notes of each recording in the browser's own store that nobody sent yet. */
const keptNotes = (page: Page): Promise<number[]> =>
  page.evaluate(
    () =>
      new Promise<number[]>((done, failed) => {
        const opening = indexedDB.open("ledgerline", 1);
        opening.onerror = () => failed(opening.error);
        opening.onsuccess = () => {
          const reading = opening.result.transaction("recordings").objectStore("recordings").getAll();
          reading.onerror = () => failed(reading.error);
          reading.onsuccess = () => {
            opening.result.close();
            done((reading.result as { notes: unknown[] }[]).map(({ notes }) => notes.length));
          };
        };
      }),
  );

/** Leaves for another page, which must stand before the way back: who is back at once never left. */
async function byLink(page: Page): Promise<void> {
  await page.click("nav a:has-text('Compare')");
  await page.waitForFunction(() => document.title.startsWith("Compare"));
}

describe.skipIf(!hasChromium)("recording in a browser", () => {
  const stage = staged();

  const words = (page: Page) =>
    page.locator("fieldset:has-text('Your keyboard') [role=status]").textContent();

  test("records a MIDI keyboard: notes, velocities, pedal and place on the chart; other messages are passed over", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    await plugKeyboards(page, ["Stage piano"]);
    await page.goto(`${stage.url}/#/record`);
    await page.waitForSelector(".record-keys");
    await page.fill('[name="tempo"]', "240");
    await page.fill('[name="count-in"]', "1");
    await page.fill('[name="title"]', "By MIDI");
    await page.click("text=Use a MIDI keyboard");
    await expect.poll(() => words(page)).toContain("Stage piano");
    await page.click("button.main");
    await page.waitForSelector(".now-playing:has-text('Chorus 1, bar 1')");
    // Status bytes after the MIDI 1.0 specification: 9n on, 8n off, 9n with velocity 0 off, Bn 64 pedal, F8 clock,
    // FE active sensing, En pitch bend. The Web MIDI API hands each message on whole, so there is no running status.
    const beat = 250;
    await page.evaluate((ms) => {
      const from = performance.now();
      const send = (bytes: readonly number[], beats: number) =>
        window.keyboards.send("Stage piano", bytes, from + beats * ms);
      send([0xb0, 64, 127], 0);
      send([0x90, 65, 40], 0);
      send([0xf8], 0.1);
      send([0x80, 65, 64], 0.9);
      send([0x90, 69, 80], 1);
      send([0xfe], 1.2);
      send([0x90, 69, 0], 1.9);
      send([0xe0, 0, 80], 2);
      send([0x91, 72, 120], 2);
      send([0x81, 72, 0], 2.9);
      send([0xb0, 64, 0], 3);
      send([0x90, 75, 100], 3);
      send([0x90, 75, 0], 3.9);
      // Struck and still held when the recording stops.
      send([0x90, 77, 60], 4);
    }, beat);
    await expect
      .poll(() =>
        page
          .locator(".record-keys .key.under")
          .evaluateAll((keys) => keys.map((key) => (key as HTMLElement).dataset.pitch)),
      )
      .toEqual(["77"]);
    await page.waitForSelector(".now-playing:has-text('bar 4')");
    await page.click("button:has-text('Stop and analyse')");
    await page.waitForSelector(".take-head h1:has-text('By MIDI')");
    const id = /takes\/([^?]+)/.exec(page.url())![1];
    const analysis = (await (await fetch(`${stage.url}/api/takes/${id}/analysis`)).json()) as Analysis;
    expect(analysis.notes.map((note) => [note.pitch, note.velocity])).toEqual([
      [65, 40],
      [69, 80],
      [72, 120],
      [75, 100],
      [77, 60],
    ]);
    const { notes } = analysis;
    for (const [i, note] of notes.slice(1).entries())
      expect(note.onset - notes[i]!.onset).toBeCloseTo(beat / 1000, 2);
    expect(notes.every((note) => note.chorus === 1 && note.bar >= 1 && note.bar <= 3)).toBe(true);
    // It was played to a click, so the tempo is the click's.
    expect(analysis.alignment.tempo?.median).toBeCloseTo(240, 3);
    expect(analysis.alignment.bars[0]).toMatchObject({ chorus: 1, bar: 1, start: 1, end: 2 });
    const source = new Uint8Array(await (await fetch(`${stage.url}/api/takes/${id}/source`)).arrayBuffer());
    const events = parseMidi(source).tracks.flat();
    expect(
      events.flatMap((event) => (event.type === "controller" ? [[event.controllerType, event.value]] : [])),
    ).toEqual([
      [64, 127],
      [64, 0],
    ]);
    expect(events.filter((event) => event.type === "pitchBend")).toEqual([]);
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("measures the delay of a keyboard by taps to a click, keeps it, takes it off what is recorded, and forgets it", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    await plugKeyboards(page, ["Late piano", "Quick piano"]);
    await page.addInitScript(() => {
      window.clicks = [];
      const start = OscillatorNode.prototype.start;
      OscillatorNode.prototype.start = function (when = 0) {
        window.clicks.push({ context: this.context as AudioContext, when });
        return start.call(this, when);
      };
    });
    const open = async () => {
      await page.goto(`${stage.url}/#/record`);
      await page.waitForSelector(".record-keys");
      await page.click("text=Use a MIDI keyboard");
    };
    await open();
    await page.click("text=Measure the delay");
    // Four clicks to listen to, then sixteen; the browser knows when they are heard once it sounds.
    await page.waitForFunction(
      () => window.clicks.length === 20 && window.clicks[0]!.context.getOutputTimestamp().contextTime! > 0,
    );
    const LATE = 84;
    await page.evaluate((late) => {
      // When a moment of the audio clock is heard: Web Audio API (W3C), getOutputTimestamp.
      const { contextTime = 0, performanceTime = 0 } = window.clicks[0]!.context.getOutputTimestamp();
      for (const { when } of window.clicks.slice(4)) {
        const at = performanceTime + (when - contextTime) * 1000 + late;
        window.keyboards.send("Late piano", [0x90, 60, 80], at);
        window.keyboards.send("Late piano", [0x80, 60, 0], at + 100);
      }
    }, LATE);
    await page.waitForSelector(".delay-said:has-text('16 of 16')");
    await page.waitForSelector(".delays li:has-text('Late piano')");
    const told = async () => Number(/(\d+) ms/.exec((await page.textContent(".delays li"))!)![1]);
    const measured = await told();
    // The two clocks are read twice, some seconds apart.
    expect(Math.abs(measured - LATE)).toBeLessThanOrEqual(20);

    await page.reload();
    await open();
    expect(await told()).toBe(measured);
    await page.fill('[name="tempo"]', "240");
    await page.fill('[name="count-in"]', "1");
    await page.fill('[name="title"]', "Two pianos");
    await page.click("button.main");
    await page.waitForSelector(".now-playing:has-text('Chorus 1, bar 2')");
    await page.evaluate(() => {
      const from = performance.now();
      for (let i = 0; i < 4; i++)
        for (const [name, pitch] of [["Late piano", 60 + i] as const, ["Quick piano", 72 + i] as const]) {
          window.keyboards.send(name, [0x90, pitch, 80], from + i * 500);
          window.keyboards.send(name, [0x80, pitch, 0], from + i * 500 + 300);
        }
    });
    await page.waitForSelector(".now-playing:has-text('bar 4')");
    await page.click("button:has-text('Stop and analyse')");
    await page.waitForSelector(".take-head h1:has-text('Two pianos')");
    const id = /takes\/([^?]+)/.exec(page.url())![1];
    const { notes } = (await (await fetch(`${stage.url}/api/takes/${id}/analysis`)).json()) as Analysis;
    const onset = (pitch: number) => notes.find((note) => note.pitch === pitch)!.onset;
    for (let i = 0; i < 4; i++) expect(onset(72 + i) - onset(60 + i)).toBeCloseTo(measured / 1000, 2);

    await page.goto(`${stage.url}/#/record`);
    await page.click(".delays button:has-text('Forget it')");
    await expect.poll(() => page.locator(".delays li").count()).toBe(0);
    expect(await page.evaluate(() => localStorage.getItem("ledgerline-delays"))).toBe("{}");
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("listens to a keyboard that is plugged in later, and says when none is left", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    await plugKeyboards(page, []);
    await page.goto(`${stage.url}/#/record`);
    await page.waitForSelector(".record-keys");
    await page.click("text=Use a MIDI keyboard");
    await expect.poll(() => words(page)).toContain("connect one");
    await page.evaluate(() => window.keyboards.plug("Travel keys"));
    await expect.poll(() => words(page)).toContain("Travel keys");
    await page.evaluate(() => window.keyboards.send("Travel keys", [0x90, 60, 90], performance.now()));
    await page.waitForSelector('.record-keys .key.under[data-pitch="60"]');
    await page.evaluate(() => window.keyboards.send("Travel keys", [0x80, 60, 0], performance.now()));
    await expect.poll(() => page.locator(".record-keys .key.under").count()).toBe(0);
    await page.evaluate(() => window.keyboards.unplug("Travel keys"));
    await expect.poll(() => words(page)).toContain("No MIDI keyboard");
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("says in words when the browser may not or cannot read MIDI, and the computer's keys still play", async () => {
    for (const [answer, said] of [
      ["refused", "not allowed"],
      ["absent", "cannot read MIDI"],
    ] as const) {
      const { page, context, trouble } = await openPage(stage.browser, stage.url);
      await page.addInitScript((how: string) => {
        Object.defineProperty(navigator, "requestMIDIAccess", {
          value:
            how === "absent"
              ? undefined
              : async () => {
                  throw new DOMException("Permission denied", "NotAllowedError");
                },
        });
      }, answer);
      await page.goto(`${stage.url}/#/record`);
      await page.waitForSelector(".record-keys");
      await page.click("text=Use a MIDI keyboard");
      await expect.poll(() => words(page)).toContain(said);
      expect(await words(page)).toContain("computer's keys");
      await page.keyboard.down("a");
      await page.waitForSelector('.record-keys .key.under[data-pitch="60"]');
      expect(trouble).toEqual([]);
      await context.close();
    }
  });

  test("counts in, clicks and plays along in time, shows the chart going by and where the hand may stand", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    await watchSound(page);
    await page.goto(`${stage.url}/#/record`);
    await page.waitForSelector(".record-keys");
    await page.fill('[name="tempo"]', "300");
    await page.fill('[name="count-in"]', "2");
    await page.selectOption('[name="form"]', "blues-quick-change");
    await page.selectOption('[name="key"]', "F");
    await page.click("button.main");
    await page.waitForSelector(".now-playing:has-text('Count-in')");
    const map = await (
      await fetch(`${stage.url}/api/placements?form=blues-quick-change&key=F&shape=third-and-steps`)
    ).json();
    const fingers = (bar: number) => {
      const chord = map.chords.find((one: { bar: number }) => one.bar === bar);
      const way = map.way.steps.find((step: { span: number }) => step.span === chord.span).placement;
      const placement = chord.placements.find((one: { id: string }) => one.id === way);
      return placement.keys.map((key: { finger: number }) => String(key.finger));
    };
    for (const bar of [1, 2, 3]) {
      // All of one moment is read at once: the next bar comes soon.
      const seen = await page.waitForFunction(
        (wanted) =>
          document.querySelector(".now-playing")!.textContent!.includes(`bar ${wanted},`) && {
            bar:
              [...document.querySelectorAll(".bar-now")].findIndex((one) => one.classList.contains("now")) +
              1,
            fingers: [...document.querySelectorAll(".finger-number")].map((one) => one.textContent),
          },
        bar,
        { polling: "raf", timeout: 20_000 },
      );
      expect(await seen.jsonValue()).toEqual({ bar, fingers: fingers(bar) });
    }
    await page.waitForSelector(".now-playing:has-text('bar 4,')", { timeout: 20_000 });
    const sounds = await soundedIn(page);
    const clicks = sounds.filter((one) => one.hertz !== null);
    // 300 a minute: a beat every 0.2 s, through the count-in and on, the first of four higher.
    clicks.forEach((one, i) => {
      expect(one.when - clicks[0]!.when).toBeCloseTo(i * 0.2, 3);
      expect(one.hertz).toBe(clicks[i % 4 === 0 ? 0 : 1]!.hertz);
    });
    expect(clicks.length).toBeGreaterThanOrEqual(8 + 12);
    // The bass begins with the form, after two bars of count-in, on F, and walks a note a beat.
    const bass = sounds.filter((one) => one.pitch !== null);
    expect(bass[0]!.when - clicks[0]!.when).toBeCloseTo(8 * 0.2, 3);
    expect(Math.round(bass[0]!.pitch!) % 12).toBe(5);
    for (const [i, one] of bass.entries()) expect(one.when - bass[0]!.when).toBeCloseTo(i * 0.2, 3);
    await page.click("button:has-text('Stop and analyse')");
    await page.waitForSelector("text=Nothing was played");
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("keeps a recording when the network is cut at sending, offers it after a reload, and sends what was set at the start", async () => {
    const { page, context } = await openPage(stage.browser, stage.url);
    await plugKeyboards(page, ["Stage piano"]);
    await page.goto(`${stage.url}/#/record`);
    await page.waitForSelector(".record-keys");
    await page.fill('[name="tempo"]', "240");
    await page.fill('[name="count-in"]', "1");
    await page.fill('[name="title"]', "Cut off");
    await page.click("text=Use a MIDI keyboard");
    await expect.poll(() => words(page)).toContain("Stage piano");
    await page.click("button.main");
    await page.waitForSelector(".now-playing:has-text('Chorus 1, bar 1')");
    // What the form says from here on is of the next recording.
    await page.fill('[name="tempo"]', "120");
    await page.selectOption('[name="key"]', "C");
    await page.evaluate(() => {
      const from = performance.now();
      for (const [i, pitch] of [65, 69, 72].entries()) {
        window.keyboards.send("Stage piano", [0x90, pitch, 80], from + i * 250);
        window.keyboards.send("Stage piano", [0x80, pitch, 0], from + i * 250 + 200);
      }
    });
    // A second is what a player may go on for without knowing.
    await page.evaluate(() => window.keyboards.unplug("Stage piano"));
    await page.waitForSelector("[role=alert]:has-text('Stage piano')", { timeout: 1000 });
    await page.route("**/api/takes", (route) => route.abort());
    await page.click("button:has-text('Stop and analyse')");
    await page.waitForSelector(".unsent:has-text('Not sent yet: one recording')");
    await page.waitForSelector(".unsent-one:has-text('No answer came from the server')");
    await page.unroute("**/api/takes");
    await page.reload();
    await page.waitForSelector(".unsent-one:has-text('Cut off')");
    await page.goto(`${stage.url}/#/`);
    await page.waitForSelector(".unsent-notice:has-text('one recording')");
    await page.click(".unsent-notice a");
    const [file] = await Promise.all([page.waitForEvent("download"), page.click("text=Save as a MIDI file")]);
    expect(file.suggestedFilename()).toMatch(/^Cut off .*\.mid$/);
    const saved = parseMidi(readFileSync(await file.path()));
    expect(saved.tracks.flat().filter((event) => event.type === "noteOn")).toHaveLength(3);
    // The server keeps it, and only its answer is lost: sent again, it is still one take.
    await page.route("**/api/takes", async (route) => {
      await route.fetch();
      await route.abort();
    });
    await page.click(".unsent-one button:has-text('Send')");
    await page.waitForSelector(
      ".unsent-one:has-text('No answer came from the server') button:has-text('Send')",
    );
    await page.unroute("**/api/takes");
    await page.click(".unsent-one button:has-text('Send')");
    await page.waitForSelector(".take-head h1:has-text('Cut off')");
    const kept = (await (await fetch(`${stage.url}/api/takes`)).json()) as { takes: { title: string }[] };
    expect(kept.takes.filter(({ title }) => title === "Cut off")).toHaveLength(1);
    const id = /takes\/([^?]+)/.exec(page.url())![1];
    const analysis = (await (await fetch(`${stage.url}/api/takes/${id}/analysis`)).json()) as Analysis;
    expect(analysis.alignment.tempo?.median).toBeCloseTo(240, 3);
    expect(analysis.alignment.bars[0]).toMatchObject({ chorus: 1, bar: 1, start: 1, end: 2 });
    expect(analysis.chart.key).toMatch(/^F/);
    await page.goto(`${stage.url}/#/record`);
    await page.waitForSelector(".record-keys");
    expect(await page.locator(".unsent-one").count()).toBe(0);
    await context.close();
  });

  test("pins the chart in free time where a pedal or an arrow changes the chord", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    await plugKeyboards(page, ["Stage piano"]);
    await page.goto(`${stage.url}/#/record?chart=${encodeURIComponent("key: C\n| Dm7 G7 | Cmaj7 |")}`);
    await page.waitForSelector(".record-keys");
    await page.click("text=Use a MIDI keyboard");
    await page.check('[name="time"][value="free"]');
    await page.fill('[name="title"]', "Freely");
    await page.click("button.main:has-text('Start')");
    await page.waitForSelector(".now-playing:has-text('Free time')");
    // Controller 67 of the MIDI 1.0 specification is the soft pedal, the left one of a piano; a pedal that is half way
    // down sends its positions, and is down from 64 on.
    await page.evaluate(() => {
      // Nobody is so quick that the first chord begins before the recording does.
      const from = performance.now() + 1000;
      const send = (bytes: readonly number[], ms: number) =>
        window.keyboards.send("Stage piano", bytes, from + ms);
      for (const [i, pitch] of [65, 71, 64].entries()) {
        const at = i * 1300;
        for (const [k, position] of [20, 70, 127, 127, 10].entries()) send([0xb0, 67, position], at + 10 * k);
        send([0x90, pitch, 80], at + 100);
        send([0x80, pitch, 0], at + 900);
      }
    });
    await page.waitForSelector(".now-playing:has-text('Round 1, bar 2')");
    await page.locator(".record-stage h1").click();
    await page.keyboard.press("ArrowRight");
    await page.waitForSelector(".now-playing:has-text('Round 2, bar 1')");
    await page.keyboard.press("ArrowLeft");
    await page.waitForSelector(".now-playing:has-text('Round 1, bar 2')");
    await page.click("button:has-text('Stop and analyse')");
    await page.waitForSelector(".take-head h1:has-text('Freely')");
    const id = /takes\/([^?]+)/.exec(page.url())![1];
    const { alignment, notes } = (await (
      await fetch(`${stage.url}/api/takes/${id}/analysis`)
    ).json()) as Analysis;
    expect(alignment.method).toBe("rubato");
    expect(alignment.anchors.map(({ chorus, bar, beat }) => [chorus, bar, beat])).toEqual([
      [1, 1, 1],
      [1, 1, 3],
      [1, 2, 1],
    ]);
    expect(alignment.anchors[1]!.seconds - alignment.anchors[0]!.seconds).toBeCloseTo(1.3, 2);
    expect(notes.map(({ chord }) => chord)).toEqual(["Dm7", "G7", "Cmaj7"]);
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("keeps a recording under way through a reload, and through a link to another page", async () => {
    const { page, context } = await openPage(stage.browser, stage.url);
    const asked: string[] = [];
    page.on("dialog", (dialog) => {
      asked.push(dialog.type());
      void dialog.accept();
    });
    await page.goto(`${stage.url}/#/record`);
    for (const [again, leave] of [
      [1, () => page.reload()],
      [2, () => byLink(page)],
    ] as const) {
      await page.waitForSelector(".record-keys");
      await page.click("button.main:has-text('Start')");
      await page.waitForSelector(".now-playing:has-text('Count-in')");
      await page.locator(".record-stage h1").click();
      await page.keyboard.press("a");
      await expect.poll(() => keptNotes(page)).toEqual(Array(again).fill(1));
      await leave();
      await page.goto(`${stage.url}/#/record`);
      await expect.poll(() => page.locator(".unsent-one").count()).toBe(again);
    }
    expect(asked).toContain("beforeunload");
    await page.click(".unsent-one >> nth=0 >> text=Discard …");
    await page.click("text=Keep it");
    await page.click(".unsent-one >> nth=0 >> text=Discard …");
    await page.click("text=Discard for good");
    await expect.poll(() => page.locator(".unsent-one").count()).toBe(1);
    await context.close();
  });

  test("keeps a recording whose chart is refused, to be sent with another chart, and never offers it in two windows while it is played", async () => {
    const { page, context } = await openPage(stage.browser, stage.url);
    await page.goto(`${stage.url}/#/record`);
    await page.waitForSelector(".record-keys");
    await page.fill('[name="title"]', "Refused");
    await page.click("button.main:has-text('Start')");
    await page.waitForSelector(".now-playing:has-text('Count-in')");
    await page.locator(".record-stage .now-playing").click();
    await page.keyboard.press("a");
    await page.keyboard.press("d");
    await expect.poll(() => keptNotes(page)).toContain(2);
    const second = await context.newPage();
    await second.goto(`${stage.url}/#/record`);
    await second.waitForSelector(".record-keys");
    await second.waitForSelector(".unsent[aria-busy='false']", { state: "attached" });
    expect(await second.locator(".unsent-one").count()).toBe(0);
    await page.bringToFront();
    // An answer with a problem's words, as RFC 9457 has it; the session may end as well as the chart be wrong.
    await page.route("**/api/takes", (route) =>
      route.fulfill({
        status: 422,
        contentType: "application/problem+json",
        body: JSON.stringify({
          code: "chart",
          title: "The chart",
          detail: "“Xq9” is no chord.",
          todo: "Mend it.",
        }),
      }),
    );
    await page.click("button:has-text('Stop and analyse')");
    await page.waitForSelector(".unsent-one:has-text('“Xq9” is no chord.')");
    await page.unroute("**/api/takes");
    // A typo of one's own is told before anything is sent, and nothing is lost by it either.
    await page.click(".unsent-one summary");
    await page.fill(".unsent-one textarea", "| Xq9 | G7 |");
    await page.click(".unsent-one button:has-text('Send')");
    await page.waitForSelector(".unsent-one .refusal, .unsent-one [role=status]:has-text('Xq9')");
    await page.fill(".unsent-one textarea", "key: C\n| Cmaj7 | G7 |");
    await page.click(".unsent-one button:has-text('Send')");
    await page.waitForSelector(".take-head h1:has-text('Refused')");
    const id = /takes\/([^?]+)/.exec(page.url())![1];
    const analysis = (await (await fetch(`${stage.url}/api/takes/${id}/analysis`)).json()) as Analysis;
    expect(analysis.notes.map(({ pitch }) => pitch)).toEqual([60, 64]);
    expect(analysis.chart.bars).toHaveLength(2);
    await context.close();
  });
});
