import { readdirSync, readFileSync } from "node:fs";
import tonejsMidi from "@tonejs/midi";
import { parse as parseMusicXml, pitchToSemitone } from "musicxml-io";
import { describe, expect, it } from "vitest";
import { corpusFiles, type Manifest } from "../../corpus/corpus-files.ts";
import type { Truth } from "../../corpus/generator/truth.ts";
import { formChart, parseChart } from "../../src/chart/index.ts";

const root = new URL("../../corpus/", import.meta.url);
const read = (path: string) => readFileSync(new URL(path, root));
const manifest = JSON.parse(read("manifest.json").toString()) as Manifest;
const truthOf = (path: string) => JSON.parse(read(path).toString()) as Truth;

describe("the evening class", () => {
  it("is made again byte for byte by npm run corpus", () => {
    const files = corpusFiles((file) => read(file).toString());
    for (const { path, bytes } of files) {
      expect(Buffer.compare(read(path), Buffer.from(bytes)), path).toBe(0);
    }
    const made = files.map(({ path }) => path).filter((path) => path.startsWith("takes/"));
    expect(
      readdirSync(new URL("takes/", root))
        .map((name) => `takes/${name}`)
        .sort(),
    ).toEqual(made.sort());
  });

  it("has at least twelve takes by four players over three charts, none of them a blues in C", () => {
    expect(manifest.takes.length).toBeGreaterThanOrEqual(12);
    expect(new Set(manifest.takes.map((take) => take.player)).size).toBe(4);
    expect(new Set(manifest.takes.map((take) => take.chart)).size).toBe(3);
    for (const { form, key, file } of manifest.charts) {
      const chart = form === null ? parseChart(read(file!).toString()) : formChart(form, key);
      expect(chart.key.tonic).not.toBe("C");
    }
  });

  it("has three takes of one player at least two weeks apart", () => {
    const days = manifest.takes
      .filter((take) => take.tags.includes("progress"))
      .map((take) => Date.parse(take.date) / 86_400_000);
    expect(days).toHaveLength(3);
    expect(days[1]! - days[0]!).toBeGreaterThanOrEqual(14);
    expect(days[2]! - days[1]!).toBeGreaterThanOrEqual(14);
  });
});

// @tonejs/midi is a second reader of MIDI files, which the generator does not use.
describe.each(manifest.takes.filter((take) => take.file.endsWith(".mid")))("$id", (take) => {
  const midi = new tonejsMidi.Midi(read(take.file));
  const truth = truthOf(take.truth);
  const notes = midi.tracks
    .flatMap((track) => track.notes)
    .sort((a, b) => a.time - b.time || a.midi - b.midi);

  it("holds every note of the truth at its time, and no other", () => {
    const expected = [...truth.notes, ...truth.comping].sort(
      (a, b) => a.onset - b.onset || a.pitch - b.pitch,
    );
    expect(notes).toHaveLength(expected.length);
    const left = new Set(notes);
    for (const one of expected) {
      const found = [...left].find(
        (note) => note.midi === one.pitch && Math.abs(note.time - one.onset) < 0.002,
      );
      expect(found, `${one.pitch} at ${one.onset}`).toBeDefined();
      left.delete(found!);
    }
  });

  it("can be played: no key is struck while it is down, hands do not cross", () => {
    const down = new Map<number, number>();
    for (const note of notes) {
      expect(note.time, `${note.name} at ${note.time}`).toBeGreaterThanOrEqual(down.get(note.midi) ?? 0);
      down.set(note.midi, note.time + note.duration);
    }
    const lowest = Math.min(...truth.notes.map((note) => note.pitch));
    expect(Math.max(...truth.comping.map((note) => note.pitch))).toBeLessThan(lowest);
  });
});

function endsTie(note: { tie?: { type: string }; ties?: readonly { type: string }[] }): boolean {
  return [note.tie, ...(note.ties ?? [])].some((tie) => tie?.type === "stop");
}

// musicxml-io is a second reader of MusicXML, which the generator does not use.
describe.each(manifest.takes.filter((take) => take.file.endsWith(".musicxml")))("$id", (take) => {
  const score = parseMusicXml(read(take.file).toString());
  const truth = truthOf(take.truth);
  const { measures } = score.parts[0]!;
  const notes = measures.flatMap((measure) => measure.entries).filter((entry) => entry.type === "note");

  it("holds the line of the truth in its upper staff, note for note", () => {
    const line = notes.filter((note) => note.staff === 1 && note.pitch !== undefined && !endsTie(note));
    expect(line.map((note) => 12 + pitchToSemitone(note.pitch!))).toEqual(
      truth.notes.map((note) => note.pitch),
    );
  });

  it("fills every bar of both staves", () => {
    const pickup = truth.pickupBeats > 0 ? 1 : 0;
    expect(measures).toHaveLength(truth.bars.length + pickup);
    measures.forEach((measure, i) => {
      for (const staff of [1, 2]) {
        const voice = measure.entries.filter((entry) => entry.type === "note" && entry.staff === staff);
        const length = voice.reduce(
          (sum, note) => sum + (note.type === "note" && !note.chord && !note.grace ? note.duration : 0),
          0,
        );
        expect(length, `bar ${i}, staff ${staff}`).toBe(i < pickup ? 24 : 48);
      }
    });
  });
});

describe.each(manifest.takes)("the line of $id", (take) => {
  const truth = truthOf(take.truth);

  // Greatest practicable spans, right hand (Parncutt, Sloboda, Clarke, Raekallio & Desain 1997, table 1).
  const WIDEST: Readonly<Record<string, number>> = {
    "12": 10,
    "13": 12,
    "14": 14,
    "15": 15,
    "23": 5,
    "24": 7,
    "25": 10,
    "34": 4,
    "35": 7,
    "45": 5,
  };

  it("lies under the fingers in each place of the hand", () => {
    for (let i = 1; i < truth.notes.length; i++) {
      const [a, b] = [truth.notes[i - 1]!, truth.notes[i]!];
      if (a.placement === null || JSON.stringify(a.placement) !== JSON.stringify(b.placement)) continue;
      if (a.finger === b.finger) continue;
      const [low, high] = a.finger < b.finger ? [a, b] : [b, a];
      const span = high.pitch - low.pitch;
      expect(span).toBeGreaterThan(0);
      expect(span).toBeLessThanOrEqual(WIDEST[`${low.finger}${high.finger}`]!);
    }
  });

  it("breathes: its phrases are apart and it keeps to the chart", () => {
    expect(truth.phrases.length).toBeGreaterThanOrEqual(4);
    for (const note of truth.notes) {
      expect(note.bar).toBeGreaterThanOrEqual(0);
      expect(note.bar).toBeLessThanOrEqual(16);
      expect(note.beat).toBeGreaterThanOrEqual(1);
      expect(note.beat).toBeLessThan(5);
    }
  });
});
