/**
 * What a note is does not depend on the key: the demo takes and two hundred generated lines get the same roles, line
 * roles and targets in all twelve keys, with spelling (and the two names of a degree that spelling chooses from) aside.
 */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { Manifest } from "../../corpus/corpus-files.ts";
import { optionsSchema } from "../../src/account.ts";
import { align, placeNotes } from "../../src/align/index.ts";
import {
  type Chart,
  chordSpans,
  formChart,
  parseChart,
  parseKey,
  transposeChart,
} from "../../src/chart/index.ts";
import { labelNotes } from "../../src/harmony/index.ts";
import { readTake } from "../../src/ingest/index.ts";
import { partHands } from "../../src/parting/part-hands.ts";
import { chanceFrom } from "../../src/statistics/chance.ts";
import type { PlacedNote } from "../../src/take/index.ts";
import { written } from "./notation.ts";

const KEYS = ["C", "Db", "D", "Eb", "E", "F", "Gb", "G", "Ab", "A", "Bb", "B"];
/** Names of one and the same degree, by how it is spelled. */
const TWINS: Readonly<Record<string, string>> = { b3: "#9", b5: "#11", "#5": "b13" };

function rowsOf(notes: readonly PlacedNote[], chart: Chart): string[] {
  return labelNotes(notes, chart, chordSpans(chart)).map(
    ({ degree, role, lineRole, target, manner, altered, guideTone, blueInKey, arrives }) =>
      [TWINS[degree!] ?? degree, role, lineRole, target, manner, altered, guideTone, blueInKey, arrives].join(
        " ",
      ),
  );
}

/** The keys in which a take is labelled otherwise than in its own. */
function changed(notes: readonly PlacedNote[], chart: Chart): string[] {
  const own = rowsOf(
    notes.map((note) => ({ ...note, printed: null })),
    chart,
  );
  return KEYS.filter((tonic, at) => {
    const key = parseKey(chart.key.mode === "minor" ? `${tonic}m` : tonic);
    const by = ((at - chart.key.tonicClass + 18) % 12) - 6;
    const moved = notes.map((note) => ({ ...note, pitch: note.pitch + by, printed: null }));
    return JSON.stringify(rowsOf(moved, transposeChart(chart, key))) !== JSON.stringify(own);
  });
}

const root = new URL("../../corpus/", import.meta.url);
const manifest = JSON.parse(readFileSync(new URL("manifest.json", root), "utf8")) as Manifest;

describe("labels in twelve keys", () => {
  it.each(manifest.takes)("$id", ({ chart: id, file }) => {
    const plan = manifest.charts.find((one) => one.id === id)!;
    const chart =
      plan.form === null
        ? parseChart(readFileSync(new URL(plan.file!, root), "utf8"))
        : formChart(plan.form, plan.key);
    const options = optionsSchema.parse({});
    const take = readTake(new Uint8Array(readFileSync(new URL(file, root))), { name: file });
    const { hands } = partHands(take, options);
    const placed = placeNotes(take, chart, chordSpans(chart), hands, align(take, chart, hands, options));
    expect(changed(placed, chart)).toEqual([]);
  });

  it.each([1, 2, 3, 4])("fifty generated lines, seed %s", (seed) => {
    const chance = chanceFrom(seed);
    for (let i = 0; i < 50; i++) {
      const { notes, chart } = written(lineOf(chance), { key: CHARTS[i % CHARTS.length]![1] });
      expect(changed(notes, chart)).toEqual([]);
    }
  });
});

const CHARTS = [
  ["Dm7 | G7 | Cmaj7 | A7", "C"],
  ["C7 | F7 | C7 | G7", "C"],
  ["Dm7b5 | G7 | Cm6 | Cm7", "Cm"],
  ["Cmaj7 | C#dim7 | Dm7 | Db7", "C"],
  ["Am7 | D7 | Gsus4 | E7", "Am"],
] as const;
let turn = 0;

/** Four bars of steps and leaps in eighths and triplets, with rests. */
function lineOf(chance: () => number): string {
  const [chords] = CHARTS[turn++ % CHARTS.length]!;
  let pitch = 60 + Math.floor(chance() * 12);
  const bars = [1, 2, 3, 4].map(() => {
    const words: string[] = [];
    for (let half = 2; half < 10; half++) {
      if (chance() < 0.2) continue;
      const size = chance() < 0.7 ? 1 + Math.floor(chance() * 2) : 3 + Math.floor(chance() * 6);
      pitch += chance() < (pitch - 55) / 24 ? -size : size;
      words.push(`${NAMES[pitch % 12]}${Math.floor(pitch / 12) - 1}@${half / 2}`);
    }
    return words.join(" ");
  });
  return `${chords} // ${bars.join(" | ")}`;
}

const NAMES = ["C", "C#", "D", "D#", "E", "F", "F#", "G", "G#", "A", "A#", "B"];
