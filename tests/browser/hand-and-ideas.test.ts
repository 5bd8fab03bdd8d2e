import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import type { Analysis } from "../../src/account.ts";
import { hasChromium, openPage } from "./stage.ts";
import { staged } from "./staged.ts";

describe.skipIf(!hasChromium)("hand shapes, searches and ideas in a browser", () => {
  const stage = staged();

  const account = async (id: string) =>
    (await (await fetch(`${stage.url}/api/takes/${id}/analysis`)).json()) as Analysis;
  const press = (page: Page, pitch: number) =>
    page.dispatchEvent(`.press-keys [data-pitch="${pitch}"]`, "click");

  test("explains a take by one shape alone once it is chosen in the settings, and says so", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    await page.goto(`${stage.url}/#/takes/tilda-week-4`);
    await page.waitForSelector(".settings-box");
    expect(await page.textContent(".take-hand")).toContain("third-and-steps alone");
    await page.waitForSelector(".hand-choice", { state: "attached" });
    await page.click(".settings-box > summary");
    await page.uncheck('.hand-choice input[value="third-and-steps"]');
    await page.check('.hand-choice input[value="major pentatonic"]');
    await page.selectOption('.hand-choice [name="hand"]', "right");
    await page.click(".settings button.main");
    await page.waitForSelector(".take-hand:has-text('major pentatonic alone')", { state: "attached" });
    const analysis = await account("tilda-week-4");
    expect(analysis.options).toMatchObject({ shapes: ["major pentatonic"], soloHand: "right" });
    expect(new Set(analysis.placements.map(({ shape }) => shape))).toEqual(new Set(["major pentatonic"]));
    const share = Math.round(analysis.handFit.share * 100);
    expect(await page.textContent('[data-told="In a placement"] dd')).toContain(`${share} %`);
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("keeps the size of the hand and the shapes for the player's next takes, none at all included", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    await page.goto(`${stage.url}/#/takes/tilda-week-8`);
    await page.waitForSelector(".hand-choice", { state: "attached" });
    await page.click(".settings-box > summary");
    await page.selectOption('.hand-choice [name="hand-size"]', "small");
    await page.check('.hand-choice [name="no-shape"]');
    await page.check('.settings [name="usual-hand"]');
    await page.click(".settings button.main");
    await page.waitForSelector(".take-hand:has-text('no hand shape')", { state: "attached" });
    const { options, notes } = await account("tilda-week-8");
    expect(options).toMatchObject({ handSize: "small", shapes: [] });
    expect(notes.filter(({ solo, finger }) => solo && finger === null)).toEqual([]);
    const { usual } = await (await fetch(`${stage.url}/api/players/tilda/page`)).json();
    expect(usual).toMatchObject({ handSize: "small", shapes: [] });
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("explains a take at its upload by the shapes and the hand that were chosen for it", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    await page.goto(`${stage.url}/`);
    await page.waitForSelector(".take-link");
    const source = readFileSync(join(import.meta.dirname, "../../corpus/takes/jonas-pickup.mid"));
    await page.setInputFiles("#take-files", { name: "evening.mid", mimeType: "audio/midi", buffer: source });
    await page.click(".hand-slot > summary");
    await page.check('.hand-slot input[value="third-and-steps"]');
    await page.check('.hand-slot input[value="minor pentatonic"]');
    await page.click(".add button.main");
    await page.waitForSelector(".take-hand:has-text('third-and-steps and minor pentatonic')", {
      state: "attached",
    });
    const id = /takes\/([^?]+)/.exec(page.url())![1]!;
    const { options, placements } = await account(id);
    expect(options.shapes).toEqual(["third-and-steps", "minor pentatonic"]);
    for (const { shape } of placements) expect(options.shapes).toContain(shape);
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("keeps a shape that was made on the drawn keyboard, refuses what no hand holds, and carries it as JSON", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    await page.goto(`${stage.url}/#/shapes`);
    await page.waitForSelector(".press-keys");
    for (const pitch of [60, 63, 66, 70]) await press(page, pitch);
    // C Eb Gb Bb with thumb, index, middle and little finger: the half-diminished chord on C.
    const fingers = page.locator(".shape-form > .row").first().locator("select");
    await fingers.nth(3).selectOption("5");
    await page.selectOption(".shape-form label:has-text('Anchor finger') select", "2");
    await page.selectOption(".degree-rows select >> nth=0", "1");
    await page.selectOption(".degree-rows select >> nth=1", "only half-diminished");
    await page.fill('[name="shape-name"]', "half-diminished four");
    await page.click("text=Keep this shape");
    await page.waitForSelector(".shape-card:has-text('Half-diminished four')");
    const { shapes } = await (await fetch(`${stage.url}/api/shapes`)).json();
    expect(shapes[0].shape).toEqual({
      name: "half-diminished four",
      fingers: [1, 2, 3, 5],
      semitones: [0, 3, 6, 10],
      anchorFinger: 2,
      anchorDegrees: [{ degree: "1", qualities: ["half-diminished"] }],
    });

    // Used at once: the placement map of a half-diminished chord has a place for it.
    await page.goto(
      `${stage.url}/#/placements?chart=${encodeURIComponent("key: Bb\n| Cm7b5 | F7 |")}&shape=half-diminished+four`,
    );
    await page.waitForSelector(".map-placement");
    expect(await page.textContent(".map-placement h4")).toContain("half-diminished four, index finger on");

    await page.goto(`${stage.url}/#/shapes`);
    await page.waitForSelector(".press-keys");
    const [download] = await Promise.all([page.waitForEvent("download"), page.click("text=Export as JSON")]);
    const text = readFileSync((await download.path())!, "utf8");
    expect(JSON.parse(text).shapes).toEqual([shapes[0].shape]);
    await page.click('[aria-label="Delete half-diminished four"]');
    await page.waitForSelector(".empty:has-text('no shape of your own')");
    await page.setInputFiles("#shape-file", {
      name: "from-a-colleague.json",
      mimeType: "application/json",
      buffer: Buffer.from(text),
    });
    await page.waitForSelector(".shape-card:has-text('Half-diminished four')");

    // Index and middle finger ten semitones apart: outside what a hand can hold (Parncutt et al. 1997, MaxPrac 5).
    const wide = { ...shapes[0].shape, name: "claw", fingers: [2, 3], semitones: [0, 10] };
    await page.setInputFiles("#shape-file", {
      name: "claw.json",
      mimeType: "application/json",
      buffer: Buffer.from(JSON.stringify([wide])),
    });
    await page.waitForSelector(".refusal-what:has-text('fingers 2 and 3 are 10 semitones apart')");
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("finds a pattern that is played on the drawn keyboard and by the computer's keys, and links to its place", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    const analysis = await account("maren-lantern-yard");
    const solo = analysis.notes.filter((note) => note.solo);
    const wanted = solo.slice(20, 24);
    await page.goto(`${stage.url}/#/search`);
    await page.waitForSelector(".press-keys");
    for (const note of wanted) await press(page, note.pitch);
    await page.selectOption('[name="in"]', "take:maren-lantern-yard");
    await page.click(".search-form button.main");
    await page.waitForSelector(".hit");
    const hit = page.locator(`.hit[data-note="${wanted[0]!.id}"]`);
    expect(await hit.getAttribute("data-edits")).toBe("0");
    expect(page.url()).toContain("symbols=");
    await hit.locator("a").click();
    await page.waitForSelector(".chorus-page");
    expect(page.url()).toContain(`/takes/maren-lantern-yard?note=${wanted[0]!.id}`);

    await page.goto(`${stage.url}/#/search`);
    await page.waitForSelector(".press-keys");
    await page.click(".search-form h1");
    // From C up: A W S are C, C sharp, D.
    for (const key of ["a", "w", "s"]) await page.keyboard.press(key);
    expect(await page.$$eval(".played-notes li strong", (all) => all.map((one) => one.textContent))).toEqual([
      "C4",
      "D♭4",
      "D4",
    ]);
    await page.click("text=Take back the last");
    expect(await page.locator(".played-notes li strong").count()).toBe(2);
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("takes the selected notes of a take to the search, in any viewpoint", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    const solo = (await account("tilda-week-8")).notes.filter((note) => note.solo);
    await page.goto(`${stage.url}/#/takes/tilda-week-8?note=${solo[4]!.id}`);
    await page.waitForSelector(".chorus-page");
    await page.focus("#chorus-page .plot");
    for (let i = 0; i < 4; i++) await page.keyboard.press("Shift+ArrowRight");
    expect(decodeURIComponent(page.url())).toContain(`notes=${solo[4]!.id}~${solo[8]!.id}`);
    await page.click(".find-again a");
    await page.waitForSelector(".hit");
    for (const viewpoint of ["degree", "contour", "rhythm", "finger", "interval and rhythm"]) {
      await page.selectOption('[name="viewpoint"]', viewpoint);
      await page.click(".search-form button.main");
      await page.waitForSelector(
        `.hit[data-take="tilda-week-8"][data-note="${solo[4]!.id}"][data-edits="0"]`,
      );
    }
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("keeps a motif under a name, finds it again, renames it, deletes it and brings it back", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    const motif = (await account("maren-lantern-yard")).motifs[0]!;
    await page.goto(`${stage.url}/#/takes/maren-lantern-yard?motif=${motif.id}`);
    await page.waitForSelector(".find-again .keep-idea");
    await page.fill('.find-again [name="idea-name"]', "Yard gate");
    await page.click(".find-again .keep-idea button");
    await page.click(".find-again a:has-text('See all ideas')");
    await page.waitForSelector(".idea:has-text('Yard gate')");
    await page.click('[aria-label="Rename Yard gate"]');
    await page.fill('[aria-label="New name"]', "Garden gate");
    await page.keyboard.press("Enter");
    await page.waitForSelector(".idea:has-text('Garden gate')");
    await page.click(".idea a:has-text('Find it')");
    await page.waitForSelector(".hit");
    const found = await page.$$eval('.hit[data-edits="0"][data-take="maren-lantern-yard"]', (hits) =>
      hits.map((hit) => (hit as HTMLElement).dataset.note),
    );
    const plain = motif.occurrences.filter(({ change }) => change === "" || change === "sequence");
    for (const { firstNote } of plain) expect(found).toContain(firstNote);
    await page.goto(`${stage.url}/#/ideas`);
    await page.click('[aria-label="Delete Garden gate"]');
    await page.waitForSelector(".idea-list .empty");
    await page.click(".notice button");
    await page.waitForSelector(".idea:has-text('Garden gate')");
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("tells what the hand and the line say in the account's own numbers", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    const { handFit, motifs, phrases, runs } = await account("bram-quick-change");
    await page.goto(`${stage.url}/#/takes/bram-quick-change`);
    await page.waitForSelector("#hand-told");
    await page.click("#line-told > summary");
    const told = (name: string) => page.textContent(`[data-told="${name}"] dd`);
    expect(await told("Distance")).toContain(`${handFit.shifts.distance} semitones in all`);
    expect(await told("Slides")).toContain(
      `No slides from a black key taken; the placements allow ${handFit.slides.possible}.`,
    );
    expect(await told("In a placement")).toContain(`${Math.round(handFit.share * 100)} %`);
    expect(
      await page.$$eval(".by-chord tbody tr", (rows) => rows.map((r) => (r as HTMLElement).dataset.chord)),
    ).toEqual(handFit.byChord.map(({ chord }) => chord));
    expect(await page.locator('#ideas-told [data-told^="Motif"]').count()).toBe(motifs.length);
    const answering = phrases.filter((phrase) => phrase.answers !== null).length;
    expect(await page.locator('[data-told="Question and answer"] .told-places button').count()).toBe(
      answering,
    );
    expect(runs.length).toBeGreaterThan(8);
    await page.click('[data-told="Stepwise runs"] button:has-text("more")');
    expect(await page.locator('[data-told="Stepwise runs"] .told-places button').count()).toBe(runs.length);
    // A run is chosen to be heard: its notes are selected, and no others.
    const longest = runs.reduce((a, b) => (b.length > a.length ? b : a));
    await page.locator('[data-told="Stepwise runs"] .told-places button').first().click();
    expect(decodeURIComponent(page.url())).toContain(`notes=${longest.firstNote}~${longest.lastNote}`);
    expect(await page.textContent(".play-what")).toBe("these notes");
    expect(trouble).toEqual([]);
    await context.close();
  });
});
