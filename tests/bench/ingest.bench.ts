/**
 * Reading files: bytes and notes a second of both readers, beside the bare parser's on the same bytes in the same run.
 * The bare parsers are midi-file's parseMidi, and for MusicXML saxes with musicxml-interfaces on a whole document of
 * elements: what a reader that only parsed would have to spend.
 */
import { parseMidi } from "midi-file";
import { scoreOfTake } from "../../src/export/score-of-take.ts";
import { writeMusicXml } from "../../src/export/write-musicxml.ts";
import { readTake } from "../../src/ingest/index.ts";
import type { Take } from "../../src/take/index.ts";
import { writeMidi } from "../export/write-midi.ts";
import { ABSENT_PACKAGES, bytesOf, FOREIGN_FILES } from "../outside/foreign-files.ts";
import { emptyTake } from "../take/empty-take.ts";
import { bareMusicXml } from "./bare-musicxml.ts";
import { medianTimes } from "./median-times.ts";
import type { Bench } from "./types.ts";

/** An hour's worth of eighths in two hands, in bars, without chance. */
function longTake(count: number): Take {
  const notes = Array.from({ length: count }, (_, i) => {
    const pitch = 40 + ((i * 7) % 45);
    const tick = 240 * (i >> 1);
    const [onset, duration] = [tick / 960, 0.25];
    return { pitch, tick, onset, duration, velocity: 40 + (i % 80) };
  });
  notes.sort((a, b) => a.tick - b.tick || a.pitch - b.pitch);
  return emptyTake({
    title: "long",
    notes: notes.map((note, i) => ({
      ...note,
      id: `n${i + 1}`,
      ticks: 240,
      sounding: note.duration,
      part: "t2",
      printed: null,
    })),
    parts: [{ id: "t2", name: "Piano", staves: 1, program: 0, notes: count }],
  });
}

/** The same as a digital piano records it: format 0, running status, chords from the top down, a pedal in steps. */
function recorded(count: number): Uint8Array {
  const bytes = [0, 0xff, 0x51, 3, 7, 0xa1, 0x20, 0, 0x90, 60, 1];
  for (let i = 0; i < count / 4; i++) {
    const root = 40 + ((i * 7) % 40);
    for (const [place, pitch] of [root + 16, root + 7, root + 4, root].entries()) {
      bytes.push(place === 0 ? 24 : 0, pitch, 40 + (i % 80));
    }
    bytes.push(0, 0xb0, 64, 30 + (i % 90), 2, 64, (i * 31) % 128);
    bytes.push(0x81, 0x10, 0x90, root + 16, 0, 1, root + 7, 0, 1, root + 4, 0, 3, root, 0);
  }
  bytes.push(1, 60, 0, 0, 0xff, 0x2f, 0);
  const file = new Uint8Array(22 + bytes.length);
  const view = new DataView(file.buffer);
  view.setUint32(0, 0x4d546864);
  view.setUint32(4, 6);
  view.setUint16(10, 1);
  view.setUint16(12, 480);
  view.setUint32(14, 0x4d54726b);
  view.setUint32(18, bytes.length);
  file.set(bytes, 22);
  return file;
}

/** Files that are read one after the other, by our reader and by the bare parser. */
function compare(name: string, files: readonly Uint8Array[], bare: (file: Uint8Array) => unknown): string {
  const notes = files.reduce((sum, file) => sum + readTake(file, { name }).notes.length, 0);
  const bytes = files.reduce((sum, file) => sum + file.length, 0);
  const [ours, theirs] = medianTimes([
    () => {
      for (const file of files) readTake(file, { name });
    },
    () => {
      for (const file of files) bare(file);
    },
  ]) as [number, number];
  const rates = (ms: number) =>
    `${Math.round((bytes / ms) * 1000).toLocaleString("en")} bytes and ${Math.round((notes / ms) * 1000).toLocaleString("en")} notes a second`;
  return `${name}: ${rates(ours)}; bare parser ${rates(theirs)}; ${(ours / theirs).toFixed(2)} times its time (bound 2)`;
}

function foreign(kind: RegExp): Uint8Array[] {
  return FOREIGN_FILES.filter((file) => kind.test(file.name) && file.package !== "musicxml-interfaces").map(
    bytesOf,
  );
}

export const bench: Bench = {
  name: "reading files",
  run() {
    const midi = foreign(/\.mid$/);
    const scores = foreign(/\.xml$/).filter((bytes) => bytes[0] === 0x3c);
    const decode = (bytes: Uint8Array) => new TextDecoder().decode(bytes);
    const written = (count: number) => new TextEncoder().encode(writeMusicXml(scoreOfTake(longTake(count))));
    return [
      ...[2_000, 20_000, 100_000].map((count) =>
        compare(`MIDI, ${count} notes as written by us`, [writeMidi(longTake(count))], parseMidi),
      ),
      ...[2_000, 50_000].map((count) =>
        compare(`MIDI, ${count} notes as a piano records them`, [recorded(count)], parseMidi),
      ),
      compare(`MIDI, ${midi.length} foreign files`, midi, parseMidi),
      ...[2_000, 10_000].map((count) =>
        compare(`MusicXML, ${count} notes as written by us`, [written(count)], (bytes) =>
          bareMusicXml(decode(bytes)),
        ),
      ),
      compare(`MusicXML, ${scores.length} foreign files`, scores, (bytes) => bareMusicXml(decode(bytes))),
      ...ABSENT_PACKAGES.map((name) => `${name} is not on this machine (tests/outside/fetch-foreign.sh)`),
    ];
  },
};
