import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import type { Analysis } from "../../src/account.ts";
import { hasChromium, openPage } from "./stage.ts";
import { staged } from "./staged.ts";

const TAKES = join(import.meta.dirname, "../../corpus/takes");

/** Width and height of each page in points, read from the file itself. */
const paperOf = (pdf: Buffer): number[][] =>
  [...pdf.toString("latin1").matchAll(/\/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)\s*\]/g)].map((box) => [
    Math.round(Number(box[1])),
    Math.round(Number(box[2])),
  ]);

/** ISO 216 A4 is 210 by 297 mm; US Letter 8.5 by 11 in (ANSI A): in points of 1/72 in. */
const A4 = [595, 842];
const LETTER = [612, 792];

describe.skipIf(!hasChromium)("from a file to a lesson", { timeout: 180_000 }, () => {
  const stage = staged();

  const account = async (id: string) =>
    (await (await fetch(`${stage.url}/api/takes/${id}/analysis`)).json()) as Analysis;

  /** Opens a page that counts its clicks and what it sends to paper. */
  const open = async (path: string, shows: string) => {
    const opened = await openPage(stage.browser, stage.url);
    await opened.page.addInitScript(() => {
      const counts = { clicks: 0, prints: 0 };
      Object.assign(window, { counts, print: () => counts.prints++ });
      addEventListener("click", (event) => event.isTrusted && counts.clicks++, true);
    });
    await opened.page.goto(`${stage.url}/#${path}`);
    // The engraver is large: on a busy machine its first page takes a while.
    await opened.page.waitForSelector(shows, { timeout: 90_000 });
    return opened;
  };
  const counts = (page: Page) =>
    page.evaluate(() => (window as unknown as { counts: { clicks: number; prints: number } }).counts);

  test("a new user has a printed feedback page and practice sheet in five clicks and under two minutes", async () => {
    const { page, context, trouble } = await open("/", ".take-link");
    const began = Date.now();
    // Dropped on the page: no click.
    const bytes = [...readFileSync(join(TAKES, "tilda-week-8.mid"))];
    await page.evaluate((data) => {
      const transfer = new DataTransfer();
      transfer.items.add(new File([Uint8Array.from(data)], "evening.mid", { type: "audio/midi" }));
      document.dispatchEvent(
        new DragEvent("drop", { dataTransfer: transfer, bubbles: true, cancelable: true }),
      );
    }, bytes);
    await page.waitForSelector(".add-details:not([hidden])");
    await page.click(".add button[type=submit]");
    await page.waitForSelector(".take-ways");
    const id = /takes\/([\w-]+)/.exec(page.url())![1]!;
    await page.click(".take-ways >> text=Findings");
    await page.waitForSelector(".finding");
    await page.click(".take-ways >> text=Print");
    const feedback = await page.pdf({ preferCSSPageSize: true });
    await page.click(".take-ways >> text=Practice sheet");
    await page.waitForSelector(".exercise:last-child .engraved", { timeout: 90_000 });
    await page.click(".take-ways >> text=Print");
    const sheet = await page.pdf({ preferCSSPageSize: true });
    const spent = Date.now() - began;
    expect(await counts(page)).toEqual({ clicks: 5, prints: 2 });
    expect(spent).toBeLessThan(120_000);
    for (const paper of [feedback, sheet]) {
      const pages = paperOf(paper);
      expect(pages.length).toBeGreaterThan(0);
      expect(pages.length).toBeLessThanOrEqual(3);
      for (const size of pages) expect(size).toEqual(A4);
    }

    // Each sentence leads to its notes by a click.
    await page.goto(`${stage.url}/#/takes/${id}/findings`);
    await page.waitForSelector(".finding");
    const analysis = await account(id);
    const told = analysis.findings.filter((finding) => finding.evidence.length > 0);
    expect(told.length).toBeGreaterThanOrEqual(5);
    for (const finding of told) {
      await page.click(`[data-finding="${finding.id}"]`);
      await page.waitForSelector(".chorus-page [data-note].on");
      const lit = await page.$$eval(".chorus-page [data-note].on", (notes) =>
        notes.map((note) => (note as SVGElement).dataset.note!),
      );
      expect([...new Set(lit)].sort(), finding.id).toEqual([...finding.evidence].sort());
    }
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("a goal is set, checked and shown before the findings; on the next take it is taken over", async () => {
    const { page, context, trouble } = await open("/takes/tilda-week-1/findings", ".kind-goals");
    await page.click("text=Set a goal");
    await page.fill('[name="goal-words"]', "Second place on the four chord");
    const numerals = await page.$$eval('[name="goal-chord"] option', (options) =>
      options.map((option) => (option as HTMLOptionElement).value),
    );
    await page.selectOption('[name="goal-chord"]', numerals.find((numeral) => numeral.startsWith("IV"))!);
    await page.click("text=Set the goal");
    await page.waitForSelector(".kind-goals .finding");
    const { options, findings } = await account("tilda-week-1");
    expect(options.goals).toMatchObject([
      { text: "Second place on the four chord", check: { kind: "placement", anchorDegree: "5" } },
    ]);
    expect(findings[0]!.id).toBe("goal-1");
    expect(await page.textContent(".findings .finding-text")).toContain("Second place on the four chord");

    await page.goto(`${stage.url}/#/takes/tilda-week-4/findings`);
    await page.waitForSelector("h1:has-text('Second try')");
    await page.click("text=Set a goal");
    await page.click("text=Take over the goals of the take before");
    await page.waitForSelector(".kind-goals .finding");
    expect((await account("tilda-week-4")).options.goals).toHaveLength(1);
    await page.click(".kind-goals >> text=Take out");
    await page.waitForSelector("text=No goal is set for this take", { state: "attached" });
    expect((await account("tilda-week-4")).options.goals).toEqual([]);
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("the player writes before reading where the teacher wants that; the teacher edits, hides, adds and signs", async () => {
    const { page, context, trouble } = await open("/takes/bram-minor-blues/findings", ".finding");
    await page.click('[name="ask-first"]');
    await page.waitForSelector("text=The findings are shown when the player has written.");
    expect(await page.locator(".kind-works .finding").count()).toBe(0);
    await page.fill('[name="own-view"]', "I heard the form all the way.");
    await page.click("text=I have written; show the findings");
    await page.waitForSelector(".kind-works .finding");

    const works = page.locator(".kind-works .finding");
    const before = await works.count();
    await works.first().locator("text=Reword").click();
    await page.fill('[aria-label="Your wording"]', "You leave room, and it is good to hear.");
    await page.click("text=Keep this wording");
    await works.nth(1).locator("text=Leave off").click();
    await expect.poll(() => works.count()).toBe(before - 1);
    await page.fill('[name="add-notice"]', "Sit a little further back.");
    await page.click(".kind-notice >> text=Add");
    await page.fill('[name="signed"]', "M. Example");
    const saved = page.waitForResponse((answer) => answer.request().method() === "PUT");
    await page.locator('[name="signed"]').blur();
    await saved;
    await page.reload();
    await page.waitForSelector(".kind-works .finding");
    expect(await page.inputValue('[name="own-view"]')).toBe("I heard the form all the way.");
    expect(await page.textContent(".kind-works .finding-text")).toBe(
      "You leave room, and it is good to hear.",
    );
    expect(await works.count()).toBe(before - 1);
    expect(await page.textContent(".kind-notice .remark")).toContain("Sit a little further back.");
    expect(await page.inputValue('[name="signed"]')).toBe("M. Example");
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("a link shows the take with nothing to change, and opens nothing once it is ended", async () => {
    const { page, context, trouble } = await open("/takes/maren-minor-blues", ".share-panel");
    await page.click(".share-panel summary");
    expect(await page.textContent(".share-body")).toMatch(/minor/);
    await page.fill('[name="share-name"]', "For the lesson");
    await page.click("text=Make a link");
    const address = await page.inputValue(".share-address");
    // For a month, unless something else is chosen.
    const until = new Date(Date.now() + 31 * 86_400_000).getUTCFullYear();
    await expect
      .poll(() => page.textContent(".shares"))
      .toMatch(new RegExp(`For the lesson since .*, until .* ${until}`));
    const reader = await openPage(stage.browser, stage.url);
    await reader.page.goto(address);
    await reader.page.waitForSelector(".lesson .finding");
    expect(reader.page.url()).toContain("#/read/maren-minor-blues");
    expect(await reader.page.locator("nav").isVisible()).toBe(false);
    expect(await reader.page.locator("textarea, form, [name='signed']").count()).toBe(0);
    await reader.page.click("[data-finding]");
    expect(await reader.page.locator(".chorus-page [data-note].on").count()).toBeGreaterThan(0);
    expect(reader.trouble).toEqual([]);

    await page.click('[aria-label="End the link For the lesson"]');
    await page.waitForSelector("text=No link is in force.");
    expect((await fetch(address, { redirect: "manual" })).status).toBe(404);
    const ended = await reader.context.newPage();
    expect((await ended.goto(address))!.status()).toBe(404);
    await ended.waitForSelector("h1:has-text('This link has ended')");
    expect(await ended.locator("nav").isVisible()).toBe(false);
    expect(trouble).toEqual([]);
    await reader.context.close();
    await context.close();
  });

  test("the practice sheet prints on A4 and on Letter, and its files follow the tempo plan and the keys", async () => {
    const { page, context, trouble } = await open(
      "/takes/tilda-week-4/practice?keys=Eb",
      ".exercise:last-child .engraved",
    );
    expect(await page.locator(".exercise h2:has-text('E♭')").count()).toBeGreaterThan(0);
    for (const size of paperOf(await page.pdf({ preferCSSPageSize: true }))) expect(size).toEqual(A4);
    // Thumb 1 to little finger 5: how fingers are numbered in piano scores.
    expect(await page.textContent(".sheet-foot")).toMatch(/1 the thumb to 5 the little finger.*Practised/s);
    await page.selectOption('[name="paper"]', "letter");
    for (const size of paperOf(await page.pdf({ preferCSSPageSize: true }))) expect(size).toEqual(LETTER);
    const first = page.locator(".exercise").first();
    const steps = await first.locator(".finding-tools option").count();
    expect(steps).toBeGreaterThan(1);
    await first.locator(".finding-tools select").selectOption({ index: steps - 1 });
    for (const name of [
      "MIDI with click",
      "MIDI with click and bass",
      "MIDI with click and shells",
      "MusicXML",
    ]) {
      const href = await first.locator(`a:text-is("${name}")`).getAttribute("href");
      const answer = await fetch(`${stage.url}${href}`);
      expect(answer.status, name).toBe(200);
      const head = Buffer.from(await answer.arrayBuffer())
        .subarray(0, 5)
        .toString("latin1");
      // "MThd" opens a Standard MIDI File (RP-001), "<?xml" an XML document.
      expect(head).toMatch(name === "MusicXML" ? /^<\?xml/ : /^MThd/);
    }
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("progress and term report show the numbers of the service", async () => {
    const { page, context, trouble } = await open("/players/tilda", ".progress");
    const progress = await (await fetch(`${stage.url}/api/players/tilda/progress`)).json();
    const drawn = await page.$$eval(".progress [data-number]", (dots) =>
      dots.map((dot) => [
        (dot as SVGElement).dataset.number,
        (dot as SVGElement).dataset.take,
        Number((dot as SVGElement).dataset.value),
      ]),
    );
    const told = progress.measures.flatMap(
      (one: { id: string; points: { take: string; value: number | null }[] }) =>
        one.points.flatMap((point) => (point.value === null ? [] : [[one.id, point.take, point.value]])),
    );
    expect(drawn).toEqual(told);
    await page.click("text=Term report");
    await page.waitForSelector(".report-table");
    const paper = paperOf(await page.pdf({ preferCSSPageSize: true }));
    expect(paper.length).toBeLessThanOrEqual(2);
    for (const size of paper) expect(size).toEqual(A4);
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("a row of sides is drawn with the numbers of the service, and the choruses of a take can be laid out at once", async () => {
    const sides = "tilda-week-1,tilda-week-4,tilda-week-8";
    const { page, context, trouble } = await open(`/compare?sides=${sides}`, ".view-measures-many .plot svg");
    const many = await (await fetch(`${stage.url}/api/compare?sides=${sides}`)).json();
    const drawn = await page.$$eval(".small-multiples [data-measure='rests']", (dots) =>
      dots.map((dot) => Number((dot as SVGElement).dataset.value)),
    );
    expect(drawn).toEqual(many.measures.find((one: { id: string }) => one.id === "rests").values);
    expect(await page.textContent(".pictures")).toMatch(
      /Share of rest: clearly more, most of all with “[^”]+”\./,
    );
    for (const sentence of many.ends.summary.slice(0, 1)) {
      expect(await page.textContent(".pictures")).toContain(sentence.slice(0, 40));
    }
    await page.click("text=The takes of Tilda in time");
    await expect
      .poll(() => decodeURIComponent(page.url()))
      .toMatch(/sides=tilda-week-1,tilda-week-4,tilda-week-8/);
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("the sides of a comparison are found by typing, and the choruses of a take are a click", async () => {
    const { page, context, trouble } = await open("/compare", ".sides");
    await page.fill('[name="first-take"]', "back row");
    const offered = () =>
      page.$$eval("#first-sides option", (all) => all.map((one) => (one as HTMLOptionElement).value));
    await expect.poll(async () => (await offered()).join()).toMatch(/^Maren, [^,]*back row/);
    const text = (await offered())[0]!;
    await page.fill('[name="first-take"]', text);
    await page.click("text=Its choruses side by side");
    await expect.poll(() => decodeURIComponent(page.url())).toMatch(/:1(,|&b=)[^,]+:2/);
    await page.waitForSelector(".pictures .plot svg");
    expect(trouble).toEqual([]);
    await context.close();
  });
});
