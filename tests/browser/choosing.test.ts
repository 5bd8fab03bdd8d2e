/** A user chooses on the page which staff of a score, or which pattern of a MIDI file, is the solo. */
import { describe, expect, test } from "vitest";
import type { Analysis } from "../../src/account.ts";
import { END_OF_TRACK, midiFile, trackChunk } from "../ingest/midi-bytes.ts";
import { attributes, bar, document, note } from "../ingest/score-text.ts";
import { hasChromium, openPage } from "./stage.ts";
import { staged } from "./staged.ts";

/** Eight quarter notes in turn on two keys. */
function line(low: number, high: number): number[] {
  const notes = Array.from({ length: 8 }, (_, i) => [
    [0, 0x90, i % 2 === 0 ? low : high, 80],
    [96, 0x80, i % 2 === 0 ? low : high, 0],
  ]).flat();
  return trackChunk(...notes, END_OF_TRACK);
}

const PATTERNS = midiFile(2, 96, line(60, 64), line(72, 76));

const bars = [1, 2].map((number) =>
  bar(
    number,
    (number === 1 ? attributes(1, 4, 4, "<staves>2</staves>") : "") +
      ["E5", "G5", "E5", "G5"].map((pitch) => note(pitch, 1, "", 1, "<staff>1</staff>")).join("") +
      "<backup><duration>4</duration></backup>" +
      ["C4", "E4", "C4", "E4"].map((pitch) => note(pitch, 1, "", 5, "<staff>2</staff>")).join(""),
  ),
);
const STAVES = document(
  `<part-list><score-part id="P1"><part-name>Piano</part-name></score-part></part-list><part id="P1">${bars.join("")}</part>`,
);

// Skipped by name where Chromium is not installed; the check of a submission installs it.
describe.skipIf(!hasChromium)("the solo is chosen on the page", () => {
  const stage = staged();

  const solo = async (id: string) => {
    const analysis = (await (await fetch(`${stage.url}/api/takes/${id}/analysis`)).json()) as Analysis;
    return [...new Set(analysis.notes.filter((one) => one.solo).map(({ pitch }) => pitch))];
  };

  test.each([
    ["the lower staff", "two-staves.musicxml", STAVES, "select[name=staff]", "2", [76, 79], [60, 64]],
    ["the second pattern", "patterns.mid", PATTERNS, "input[name=pattern]", "2", [60, 64], [72, 76]],
  ] as const)("%s", async (_, name, bytes, field, value, before, after) => {
    const form = new FormData();
    form.append("file", new Blob([bytes as Uint8Array<ArrayBuffer>]), name);
    form.append("chart", "key: C\n| C7 | C7 |");
    const created = await fetch(`${stage.url}/api/takes`, { method: "POST", body: form });
    expect(created.status, await created.clone().text()).toBe(201);
    const { take } = (await created.json()) as { take: { id: string } };
    expect(await solo(take.id)).toEqual(before);

    const { page, context, trouble } = await openPage(stage.browser, stage.url);
    await page.goto(`${stage.url}/#/takes/${take.id}`);
    await page.waitForSelector("form.settings", { state: "attached" });
    await page.click(".settings-box summary");
    if (field.startsWith("select")) await page.selectOption(field, value);
    else await page.fill(field, value);
    await page.click("form.settings button[type=submit]");
    await expect.poll(() => solo(take.id), { timeout: 15_000 }).toEqual(after);
    // The form now shows what was chosen.
    await expect.poll(() => page.inputValue(field)).toBe(value);
    expect(trouble).toEqual([]);
    await context.close();
  });
});
