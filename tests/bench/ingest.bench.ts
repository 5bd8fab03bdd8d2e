/**
 * Reading files: bytes and notes a second of both readers, beside the bare parser's on the same bytes in the same run.
 * The bare parsers are midi-file's parseMidi, and for MusicXML saxes with musicxml-interfaces on a whole document of
 * elements: what a reader that only parsed would have to spend.
 */
import { parseMidi } from "midi-file";
import { SaxesParser } from "saxes";
import { scoreOfTake } from "../../src/export/score-of-take.ts";
import { writeMidi } from "../../src/export/write-midi.ts";
import { writeMusicXml } from "../../src/export/write-musicxml.ts";
import { readTake } from "../../src/ingest/index.ts";
import { XmlElement } from "../../src/ingest/musicxml/element.ts";
import { readAttributes, readNote } from "../../src/ingest/musicxml/interfaces.ts";
import type { Take } from "../../src/take/index.ts";
import type { Bench } from "./types.ts";

const ROUNDS = 7;

/** An hour's worth of eighths in two hands, in bars, without chance. */
function longTake(count: number): Take {
  const notes = Array.from({ length: count }, (_, i) => {
    const pitch = 40 + ((i * 7) % 45);
    const tick = 240 * (i >> 1);
    const [onset, duration] = [tick / 960, 0.25];
    return { pitch, tick, onset, duration, velocity: 40 + (i % 80) };
  });
  notes.sort((a, b) => a.tick - b.tick || a.pitch - b.pitch);
  return {
    format: "midi",
    title: "long",
    ticksPerQuarter: 480,
    notes: notes.map((note, i) => ({
      ...note,
      id: `n${i + 1}`,
      ticks: 240,
      sounding: note.duration,
      part: "t2",
      printed: null,
    })),
    parts: [{ id: "t2", name: "Piano", staves: 1, program: 0, notes: count }],
    tempos: [{ tick: 0, seconds: 0, quartersPerMinute: 120 }],
    tempoStated: true,
    meters: [{ tick: 0, beats: 4, unit: 4 }],
    keys: [],
    bars: [],
    chords: [],
    texts: [],
    pedal: [],
    swing: null,
    warnings: [],
  };
}

/** Fastest of several rounds, in milliseconds of this process's own time, so that neighbours do not count. */
function fastest(run: () => unknown): number {
  let best = Number.POSITIVE_INFINITY;
  for (let round = 0; round < ROUNDS; round++) {
    const before = process.cpuUsage();
    run();
    const { user, system } = process.cpuUsage(before);
    best = Math.min(best, (user + system) / 1000);
  }
  return best;
}

/** Builds the whole document as elements and has musicxml-interfaces read every bar of it. */
function bareMusicXml(text: string): number {
  const parser = new SaxesParser({ xmlns: false, position: true });
  const stack: XmlElement[] = [];
  const measures: XmlElement[] = [];
  parser.on("opentag", ({ name, attributes }) => {
    const list = Object.entries(attributes).map(
      ([key, value]) => ({ name: key, value: String(value), nodeType: 2, ATTRIBUTE_NODE: 2 }) as const,
    );
    const element = new XmlElement(name, list, parser.line);
    stack.at(-1)?.children.push(element);
    stack.push(element);
  });
  parser.on("text", (piece) => {
    const top = stack.at(-1);
    if (top !== undefined) top.text += piece;
  });
  parser.on("closetag", () => {
    const element = stack.pop()!;
    if (element.nodeName === "measure") measures.push(element);
  });
  parser.write(text).close();
  let things = 0;
  for (const { children } of measures) {
    for (const one of children) {
      if (one.nodeName === "note") readNote(one);
      else if (one.nodeName === "attributes") readAttributes(one);
      things++;
    }
  }
  return things;
}

function line(name: string, bytes: number, notes: number, ours: number, bare: number): string {
  const rate = (amount: number, ms: number) => Math.round((amount / ms) * 1000).toLocaleString("en");
  return `${name}: ${rate(bytes, ours)} bytes and ${rate(notes, ours)} notes a second; bare parser ${rate(bytes, bare)} bytes; ${(ours / bare).toFixed(2)} times its time (bound 2)`;
}

export const bench: Bench = {
  name: "reading files",
  run() {
    const lines: string[] = [];
    for (const count of [2_000, 100_000]) {
      const bytes = writeMidi(longTake(count));
      const ours = fastest(() => readTake(bytes, { name: "long.mid" }));
      lines.push(
        line(
          `MIDI, ${count} notes`,
          bytes.length,
          count,
          ours,
          fastest(() => parseMidi(bytes)),
        ),
      );
    }
    for (const count of [2_000, 10_000]) {
      const bytes = new TextEncoder().encode(writeMusicXml(scoreOfTake(longTake(count))));
      const text = new TextDecoder().decode(bytes);
      const ours = fastest(() => readTake(bytes, { name: "long.musicxml" }));
      lines.push(
        line(
          `MusicXML, ${count} notes`,
          bytes.length,
          count,
          ours,
          fastest(() => bareMusicXml(text)),
        ),
      );
    }
    return lines;
  },
};
