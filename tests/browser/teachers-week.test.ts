/**
 * A teacher's week from end to end: a lesson is prepared and handed out, answered from a keyboard while the network
 * comes and goes, answered back and printed; a week later the lens is reached, and the parents read of it.
 */
import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { violationsOf } from "./axe.ts";
import { hasChromium, openPage } from "./stage.ts";
import { staged } from "./staged.ts";

const KEYBOARD = "Upright in the hall";

interface MadeKeyboard {
  /** Plays keys one after the other, each for most of `ms`, from the moment on at which the page tells of `bar`. */
  play(pitches: readonly number[], ms: number, bar: string): Promise<void>;
}
declare const window: Window & { madeKeyboard: MadeKeyboard };

/** A keyboard that is not there, behind the interface of the Web MIDI API (W3C), for pages that are opened next. */
const plugIn = (page: Page): Promise<unknown> =>
  page.addInitScript((name: string) => {
    const port = { name, onmidimessage: null as ((event: unknown) => void) | null };
    const access = { inputs: new Map([[name, port]]), outputs: new Map(), onstatechange: null };
    Object.defineProperty(navigator, "requestMIDIAccess", { value: async () => access });
    Object.assign(window, {
      madeKeyboard: {
        async play(pitches: readonly number[], ms: number, bar: string) {
          const row = document.querySelector(".now-playing")!;
          while (!row.textContent!.includes(bar)) await new Promise(requestAnimationFrame);
          const from = performance.now();
          // Note on and off, after the MIDI 1.0 specification.
          for (const [i, pitch] of pitches.entries()) {
            const send = (bytes: readonly number[], at: number) =>
              port.onmidimessage?.({ data: Uint8Array.from(bytes), timeStamp: at });
            send([0x90, pitch, 80], from + i * ms);
            send([0x80, pitch, 0], from + i * ms + 0.8 * ms);
          }
        },
      },
    });
  }, KEYBOARD);

/** The page goes up to 320 quarter notes a minute: a test need not last as long as a lesson. */
const TEMPO = 240;
const BEAT_MS = 60_000 / TEMPO;

// Bars 2 to 11 of a blues in F: Bb7 F7 F7 Bb7 Bb7 F7 F7 C7 Bb7 F7 [practice], a note a beat, up the chord and back. The
// first time all of it lies at one height; a week later the second half lies an octave higher, which is what the lens of
// register asks for: parts a fifth apart, and nineteen semitones from the lowest to the highest note.
const ROOTS = [70, 65, 65, 70, 70, 65, 65, 72, 70, 65];
const UP_AND_BACK = [0, 4, 7, 4];
const AT_ONE_HEIGHT = ROOTS.flatMap((root) => UP_AND_BACK.map((step) => root + step));
const CLIMBING = AT_ONE_HEIGHT.map((pitch, i) => (i < AT_ONE_HEIGHT.length / 2 ? pitch : pitch + 12));

const daysAgo = (days: number): string => new Date(Date.now() - days * 86_400_000).toISOString().slice(0, 10);

async function record(page: Page, url: string, player: string, title: string, pitches: readonly number[]) {
  await page.goto(`${url}/#/record?player=${player}`);
  await page.waitForSelector(".record-keys");
  await page.selectOption('[name="form"]', "blues-basic");
  await page.selectOption('[name="key"]', "F");
  await page.fill('[name="tempo"]', String(TEMPO));
  await page.fill('[name="count-in"]', "1");
  await page.fill('[name="title"]', title);
  await page.click("text=Use a MIDI keyboard");
  await page.waitForSelector(`fieldset:has-text('Your keyboard') [role=status]:has-text('${KEYBOARD}')`);
  await page.click("button.main");
  await page.waitForSelector(".now-playing:has-text('Chorus 1, bar 1')");
  await page.evaluate(([keys, ms]) => window.madeKeyboard.play(keys, ms, "bar 2"), [
    pitches,
    BEAT_MS,
  ] as const);
}

describe.skipIf(!hasChromium)("a teacher's week", () => {
  const stage = staged();

  test("from a lesson that is prepared to a lens that is reached, with the network cut twice", {
    // Two takes are played in their own time, and a busy machine takes several times as long for the rest.
    timeout: 240_000,
  }, async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    const api = async (path: string, init?: RequestInit) =>
      (await fetch(`${stage.url}/api${path}`, init)).json();
    const sent = (method: string, body: unknown): RequestInit => ({
      method,
      headers: { "content-type": "application/json" },
      body: JSON.stringify(body),
    });
    const { id: player } = await api("/players", sent("POST", { name: "Nele" }));
    const rowOf = async () => {
      await page.goto(`${stage.url}/#/`);
      const row = page.locator(".player:has(.player-name:text-is('Nele'))");
      await row.waitFor();
      return row.textContent();
    };
    await plugIn(page);

    // Prepared for the player, looked at, handed out; the lens of these weeks is set with its day.
    await page.goto(`${stage.url}/#/lesson?form=blues-basic&key=F&lens=register&player=${player}`);
    await page.waitForSelector('[data-exercise="1"] .exercise-staff svg');
    await page.fill('[name="handed-on"]', daysAgo(8));
    await page.click(".hand-out button.main");
    await page.waitForSelector(".hand-out [role=status]:has-text('Handed out to Nele')");
    await page.goto(`${stage.url}/#/players/${player}`);
    await page.waitForSelector('.handed-lessons [data-state="waits"]');
    await page.selectOption('[name="lens"]', "register");
    await page.fill('[name="since"]', daysAgo(8));
    await page.click("text=Set the lens");
    await page.waitForSelector("text=Take back");
    expect(await rowOf()).toMatch(/One lesson waits for a take/);

    // Played at home; the network goes while it is played, and the recording waits until it is back.
    await record(page, stage.url, player, "Monday", AT_ONE_HEIGHT);
    await context.setOffline(true);
    await page.waitForSelector(".now-playing:has-text('bar 12')");
    await page.click("button:has-text('Stop and analyse')");
    await page.waitForSelector(".unsent:has-text('Not sent yet: one recording')");
    // Said as a musician says it, with the way on; all that is needed to send it is there already.
    await page.waitForSelector(".unsent-one:has-text('12-bar blues in F')");
    expect(await page.textContent("main")).toContain("No answer came from the server.");
    await context.setOffline(false);
    await page.click(".unsent-one button:has-text('Send')");
    await page.waitForSelector(".take-head h1:has-text('Monday')");
    const monday = /takes\/([^?]+)/.exec(page.url())![1]!;
    await api(`/takes/${monday}`, sent("PATCH", { date: daysAgo(7) }));

    // Answered back: the network goes once more, and the remark waits, and is there when it is printed.
    await page.goto(`${stage.url}/#/takes/${monday}/findings`);
    await page.waitForSelector(".lens-panel");
    expect(await page.textContent(".lens-verdict")).toContain("Not yet");
    await page.click(".beside-lens summary");
    await context.setOffline(true);
    await page.fill('[name="add-practise"]', "Sing the second half before you play it.");
    await page.click(".kind-practise >> text=Add");
    await page.fill('[name="signed"]', "M. Example");
    await page.waitForSelector(".not-kept-bar:has-text('Not saved')");
    await context.setOffline(false);
    await expect.poll(() => page.textContent(".not-kept-bar")).not.toContain("Not saved");
    expect(await api(`/takes/${monday}/feedback`)).toMatchObject({
      ...{ signed: "M. Example", added: [{ kind: "practise" }] },
    });
    expect(await violationsOf(page)).toEqual([]);
    // "%PDF-" opens every PDF file (ISO 32000-1, 7.5.2).
    const isPdf = (bytes: Buffer) => bytes.subarray(0, 5).toString("latin1") === "%PDF-";
    expect(isPdf(await page.pdf({ preferCSSPageSize: true }))).toBe(true);
    await page.click("text=Practice sheet");
    await page.waitForSelector(".exercise .engraved");
    expect(isPdf(await page.pdf({ preferCSSPageSize: true }))).toBe(true);

    // A week later.
    await record(page, stage.url, player, "Monday after", CLIMBING);
    await page.waitForSelector(".now-playing:has-text('bar 12')");
    await page.click("button:has-text('Stop and analyse')");
    await page.waitForSelector(".take-head h1:has-text('Monday after')");
    const next = /takes\/([^?]+)/.exec(page.url())![1]!;
    expect((await api(`/takes/${next}/analysis`)).lens).toMatchObject({ state: "reached" });
    const row = await rowOf();
    expect(row).toMatch(/Reached now, not yet in the take before/);
    expect(row).not.toMatch(/waits for a take|Due:/);

    // The parents: a note on the player's page, the term on paper, and the take behind a link.
    await page.goto(`${stage.url}/#/players/${player}`);
    await page.waitForSelector('.handed-lessons [data-state="answered"]:has-text("Monday")');
    expect(await page.locator(".lens-weeks tbody tr").count()).toBe(2);
    await page.click("summary:has-text('Notes for the parents')");
    await page.fill('[name="note"]', "Nele uses the whole keyboard now.");
    await page.click("text=Keep the note");
    await page.waitForSelector("summary:has-text('Notes for the parents (1)')");
    await page.goto(`${stage.url}/#/players/${player}/report`);
    await page.waitForSelector(".report-table");
    expect(await page.textContent(".report-notes")).toContain("Nele uses the whole keyboard now.");
    expect(await page.locator(".report-lens td:last-child").allTextContents()).toEqual([
      "Not yet",
      "Reached",
    ]);
    await page.fill('[name="report-teacher"]', "A good autumn.");
    await page.reload();
    await page.waitForSelector(".report-table");
    expect(await page.inputValue('[name="report-teacher"]')).toBe("A good autumn.");
    const { path } = await api(
      `/takes/${monday}/shares`,
      sent("POST", { name: "For the parents", days: 30 }),
    );
    const parents = await openPage(stage.browser, stage.url, { width: 390, height: 844 });
    await parents.page.goto(stage.url + path);
    await parents.page.waitForSelector(".lesson .finding");
    const remark = parents.page.locator(".finding:has-text('Sing the second half')");
    expect(await remark.locator(".finding-heading").textContent()).toBe("From the teacher");
    expect(await parents.page.locator("nav").isVisible()).toBe(false);
    expect(parents.trouble).toEqual([]);
    await parents.context.close();
    expect(trouble.filter((line) => !/net::ERR_INTERNET_DISCONNECTED/.test(line))).toEqual([]);
    await context.close();
  });
});
