import { describe, expect, test } from "vitest";
import type { Analysis } from "../../src/account.ts";
import { ARPEGGIOS, FOUR_BARS, smallMidi, takeForm } from "../server/harness.ts";
import { violationsOf } from "./axe.ts";
import { hasChromium, openPage } from "./stage.ts";
import { staged } from "./staged.ts";

/** Chord tones of a twelve-bar blues in D, a quarter note a beat; the chart given is the same in C. [practice] */
const ROOTS = [62, 67, 62, 62, 67, 67, 62, 62, 69, 67, 62, 69];
const LINE = [...ROOTS, ...ROOTS].flatMap((root) => [root, root + 4, root + 7, root + 10]);
const BLUES = "idiom: blues\nkey: C\n| C7 | F7 | C7 | C7 | F7 | F7 | C7 | C7 | G7 | F7 | C7 | G7 |";

describe.skipIf(!hasChromium)("the question above a take", () => {
  const stage = staged();

  const send = async (): Promise<string> => {
    const body = takeForm({ chart: BLUES }, smallMidi(LINE, { inFour: true }), "in-d.mid");
    return (await (await fetch(`${stage.url}/api/takes`, { method: "POST", body })).json()).take.id;
  };
  const account = async (id: string): Promise<Analysis> =>
    (await fetch(`${stage.url}/api/takes/${id}/analysis`)).json() as Promise<Analysis>;

  test("about a chart that does not fit is answered by the key that fits, taken back, and asked above the findings too", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    const id = await send();
    await page.goto(`${stage.url}/#/takes/${id}`);
    const question = page.locator(".take-question");
    await question.waitFor();
    expect(await question.textContent()).toMatch(/Fits better: the same chart in D;.* 12-bar blues in D\./);
    expect(await violationsOf(page)).toEqual([]);
    await question.getByRole("button", { name: "12-bar blues in D", exact: true }).click();
    await page.waitForSelector("text=The take is read on 12-bar blues in D.");
    expect((await account(id)).chart.bars[0]!.chords[0]!.symbol).toBe("D7");
    expect(await question.count()).toBe(0);
    await page.locator(".notice").getByRole("button", { name: "Undo" }).click();
    await question.waitFor();
    expect((await account(id)).chart.bars[0]!.chords[0]!.symbol).toBe("C7");

    await page.goto(`${stage.url}/#/takes/${id}/findings`);
    await page.locator(".feedback").getByRole("button", { name: "This is the chart" }).click();
    await page.waitForSelector("text=The chart is confirmed");
    expect((await account(id)).options.chartConfirmed).toBe(true);
    expect(await question.count()).toBe(0);
    await page.locator(".finding-judged summary").first().click();
    expect(await page.locator(".finding-judged[open] p").textContent()).toMatch(/chance|goal/i);
    expect(await violationsOf(page)).toEqual([]);
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("about the hand of a line that lies low is answered by one click, and taken back", async () => {
    const { page, context, trouble } = await openPage(stage.browser, stage.url, { width: 390 });
    // Arpeggios two octaves lower than a right hand plays them: below middle C. [practice]
    const low = smallMidi(
      ARPEGGIOS.map((key) => key - 24),
      { inFour: true },
    );
    const body = takeForm({ chart: FOUR_BARS }, low, "low-line.mid");
    const id: string = (await (await fetch(`${stage.url}/api/takes`, { method: "POST", body })).json()).take
      .id;
    await page.goto(`${stage.url}/#/takes/${id}`);
    const question = page.locator(".take-question");
    const asked = question.getByRole("heading", { name: "Which hand plays the solo?" });
    await asked.waitFor();
    expect(await violationsOf(page)).toEqual([]);
    await question.getByRole("button", { name: "The left hand", exact: true }).click();
    await page.waitForSelector("text=The left hand’s line is the solo.");
    expect(new Set((await account(id)).notes.map(({ hand }) => hand))).toEqual(new Set(["left"]));
    expect(await asked.count()).toBe(0);
    await page.locator(".notice").getByRole("button", { name: "Undo" }).click();
    await asked.waitFor();
    expect(new Set((await account(id)).notes.map(({ hand }) => hand))).toEqual(new Set(["right"]));
    await question.getByRole("button", { name: "The right hand", exact: true }).click();
    await page.waitForSelector("text=The right hand’s line is the solo.");
    expect((await account(id)).options.soloHand).toBe("right");
    expect(await asked.count()).toBe(0);
    expect(trouble).toEqual([]);
    await context.close();
  });

  test("opens the settings for any other chart", async () => {
    const { page, context } = await openPage(stage.browser, stage.url, { width: 390 });
    await page.goto(`${stage.url}/#/takes/${await send()}`);
    await page.waitForSelector(".settings-box");
    await page.getByRole("button", { name: "Another chart" }).click();
    expect(await page.locator(".settings-box").getAttribute("open")).not.toBeNull();
    await context.close();
  });
});
