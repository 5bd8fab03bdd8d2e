/** Which part, which staff, which pattern is the solo: chosen by default with a warning, or by the user. */
import { execFileSync, spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { RunningServer } from "../../server/start.ts";
import type { AnalyseOptionsInput, Analysis } from "../../src/account.ts";
import { analyse } from "../../src/analyse.ts";
import { serve, takeForm } from "../server/harness.ts";
import { ascii, END_OF_TRACK, metaEvent, midiFile, trackChunk } from "./midi-bytes.ts";
import { attributes, bar, document, note } from "./score-text.ts";

const CHART = "key: C\n| C7 | C7 | C7 | C7 |";

/** Sixteen quarter notes on two keys in turn. */
function line(name: string, low: number, high: number): number[] {
  const notes = Array.from({ length: 16 }, (_, i) => {
    const pitch = i % 2 === 0 ? low : high;
    return [
      [0, 0x90, pitch, 80],
      [96, 0x80, pitch, 0],
    ];
  }).flat();
  return trackChunk(metaEvent(0x03, ascii(name)), ...notes, END_OF_TRACK);
}

const LOW = line("Bass", 40, 43);
const HIGH = line("Keys", 76, 79);
const PATTERNS = midiFile(2, 96, LOW, HIGH);
const TRACKS = midiFile(1, 96, LOW, HIGH);

/** A part of two staves, a line in each. */
const STAVES = document(
  `<part-list><score-part id="P1"><part-name>Piano</part-name></score-part></part-list><part id="P1">${[
    1, 2, 3, 4,
  ]
    .map((number) =>
      bar(
        number,
        (number === 1 ? attributes(1, 4, 4, "<staves>2</staves>") : "") +
          ["E5", "G5", "E5", "G5"].map((pitch) => note(pitch, 1, "", 1, "<staff>1</staff>")).join("") +
          "<backup><duration>4</duration></backup>" +
          ["E2", "G2", "E2", "G2"].map((pitch) => note(pitch, 1, "", 5, "<staff>2</staff>")).join(""),
      ),
    )
    .join("")}</part>`,
);

function solo(analysis: Analysis): number[] {
  return [...new Set(analysis.notes.filter((one) => one.solo).map(({ pitch }) => pitch))];
}

function warned(bytes: Uint8Array, options: AnalyseOptionsInput = {}): string[] {
  return analyse(bytes, CHART, options).warnings.map(({ code }) => code);
}

const CHOICES: readonly (readonly [
  what: string,
  bytes: Uint8Array,
  options: AnalyseOptionsInput,
  flags: readonly string[],
  pitches: readonly number[],
])[] = [
  ["a part", TRACKS, { soloPart: "t1" }, ["--solo-part", "t1"], [40, 43]],
  ["a staff", STAVES, { soloStaff: 2 }, ["--solo-staff", "2"], [40, 43]],
  ["a pattern of a format 2 file", PATTERNS, { pattern: 2 }, ["--pattern", "2"], [76, 79]],
];

describe("by default", () => {
  it("the higher part or staff is the solo, and a warning says why and how to change it", () => {
    for (const bytes of [TRACKS, STAVES]) {
      const { warnings, ...analysis } = analyse(bytes, CHART);
      const message = warnings.find(({ code }) => code === "solo-chosen")?.message;
      expect(message).toMatch(/because .* choose another part or staff/);
      expect(solo({ warnings, ...analysis })).toEqual([76, 79]);
    }
  });

  it("the first pattern with notes is read, and a warning says so", () => {
    expect(solo(analyse(PATTERNS, CHART))).toEqual([40, 43]);
    expect(warned(PATTERNS)).toContain("pattern-chosen");
  });
});

describe("by the user", () => {
  let folder: string;
  let server: RunningServer;
  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), "ledgerline-choosing-"));
    server = await serve();
  });
  afterAll(async () => {
    rmSync(folder, { recursive: true });
    await server.close();
  });

  it.each(CHOICES)("%s is chosen in the options, without a warning", (_, bytes, options, _flags, pitches) => {
    expect(solo(analyse(bytes, CHART, options))).toEqual(pitches);
    expect(warned(bytes, options).filter((code) => /-chosen$/.test(code))).toEqual([]);
  });

  it.each(CHOICES)("%s is chosen in a request", async (_, bytes, options, _flags, pitches) => {
    const body = takeForm({ chart: CHART, options: JSON.stringify(options) }, bytes, "take");
    const answer = await fetch(`${server.url}/api/analyse`, { method: "POST", body });
    expect(solo((await answer.json()) as Analysis)).toEqual(pitches);
  });

  it.each(CHOICES)("%s is chosen on the command line", (_, bytes, _options, flags, pitches) => {
    const file = join(folder, "take");
    writeFileSync(file, bytes);
    const out = execFileSync(
      process.execPath,
      ["server/run.js", "cli", "analyse", file, "--chart", CHART, ...flags],
      { encoding: "utf8", maxBuffer: 1e8 },
    );
    expect(solo(JSON.parse(out) as Analysis)).toEqual(pitches);
  });

  it("what there is not is refused with what there is", () => {
    expect(() => analyse(PATTERNS, CHART, { pattern: 3 })).toThrow(/has 2 patterns; there is no pattern 3/);
    const file = join(folder, "take");
    writeFileSync(file, PATTERNS);
    const { status, stderr } = spawnSync(
      process.execPath,
      ["server/run.js", "cli", "analyse", file, "--chart", CHART, "--pattern", "two"],
      { encoding: "utf8" },
    );
    expect(status).toBe(1);
    expect(stderr).toMatch(/options\.pattern/);
  });
});
