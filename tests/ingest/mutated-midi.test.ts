/**
 * MIDI files that were sound, damaged by a seeded hand: what they held is known, so what is read can be held against
 * it. The files are laid byte by byte (SMF 1.0), 64 notes with note-offs, with running status, and in two tracks.
 */
import { describe, expect, it } from "vitest";
import { readTake } from "../../src/ingest/index.ts";
import { Problem } from "../../src/take/index.ts";
import { ascii, END_OF_TRACK, metaEvent, midiFile, trackChunk } from "./midi-bytes.ts";

const LINE = Array.from({ length: 64 }, (_, i) => 55 + ((i * 7) % 24));
const TEMPO = metaEvent(0x51, [7, 0xa1, 0x20]);
const struck = (pitch: number) => [0, 0x90, pitch, 80, 48, 0x80, pitch, 0];
const running = (pitch: number, index: number) =>
  index === 0 ? [0, 0x90, pitch, 80, 48, pitch, 0] : [0, pitch, 80, 48, pitch, 0];

const FILES: readonly (readonly [string, () => number[]])[] = [
  ["plain", () => [...midiFile(0, 96, trackChunk(TEMPO, ...LINE.map(struck), END_OF_TRACK))]],
  ["in running status", () => [...midiFile(0, 96, trackChunk(TEMPO, ...LINE.map(running), END_OF_TRACK))]],
  [
    "in two tracks",
    () => [
      ...midiFile(
        1,
        96,
        trackChunk(metaEvent(0x03, ascii("one")), ...LINE.slice(0, 32).map(struck), END_OF_TRACK),
        trackChunk(...LINE.slice(32).map(struck), END_OF_TRACK),
      ),
    ],
  ],
];

type Draw = (low: number, high: number) => number;

/** A small generator of its own (Lehmer 1951, modulus 2^31 - 1, multiplier 48271). */
function drawing(seed: number): Draw {
  let state = seed;
  return (low, high) => {
    state = (state * 48_271) % 2_147_483_647;
    return low + (state % (high - low + 1));
  };
}

const inside = (bytes: readonly number[], draw: Draw) => draw(60, bytes.length - 60);
const overwritten = (bytes: readonly number[], count: number, draw: Draw, value: () => number) => {
  const at = inside(bytes, draw);
  return bytes.map((byte, index) => (index >= at && index < at + count ? value() : byte));
};

/** What was done, and how many of the 64 notes may be lost by it. */
const DAMAGES: readonly (readonly [string, number, (bytes: readonly number[], draw: Draw) => number[]])[] = [
  ["cut at a third", 47, (bytes) => bytes.slice(0, Math.floor(bytes.length * 0.34))],
  ["cut near the end", 3, (bytes) => bytes.slice(0, -13)],
  ["with four bytes of FF", 6, (bytes, draw) => overwritten(bytes, 4, draw, () => 0xff)],
  ["with nine bytes of anything", 8, (bytes, draw) => overwritten(bytes, 9, draw, () => draw(0, 255))],
  ["with twelve zeros", 8, (bytes, draw) => overwritten(bytes, 12, draw, () => 0)],
  ["with a byte lost", 6, (bytes, draw) => bytes.toSpliced(inside(bytes, draw), 1)],
  ["with three bytes lost", 6, (bytes, draw) => bytes.toSpliced(inside(bytes, draw), 3)],
  ["with a byte C3 too many", 6, (bytes, draw) => bytes.toSpliced(inside(bytes, draw), 0, 0xc3)],
  [
    "with five bytes too many",
    8,
    (bytes, draw) =>
      bytes.toSpliced(inside(bytes, draw), 0, ...Array.from({ length: 5 }, () => draw(0, 255))),
  ],
  [
    "with real-time bytes strewn in",
    5,
    (bytes, draw) => {
      let strewn = [...bytes];
      for (let i = 0; i < 6; i++) strewn = strewn.toSpliced(inside(strewn, draw), 0, 0xf8);
      return strewn;
    },
  ],
  [
    "with loudnesses above 127",
    3,
    (bytes, draw) => {
      const loud = [...bytes];
      for (let i = 0; i < 5; i++) loud[loud.indexOf(80, draw(45, loud.length - 40))] = 0xd0;
      return loud;
    },
  ],
  ["whose track says too short a length", 0, (bytes) => bytes.with(20, 0).with(21, 40)],
  ["whose track says too long a length", 0, (bytes) => bytes.with(18, 1)],
  ["with text before its header", 0, (bytes) => [...ascii("by hand\n"), ...bytes]],
  ["with zeros behind its end", 0, (bytes) => [...bytes, ...new Array<number>(200).fill(0)]],
  ["without its end", 0, (bytes) => bytes.slice(0, -4)],
];

/** How many of the notes were read in a row, whatever else was, and how many more there are. */
function heldAgainst(truth: readonly number[], read: readonly number[]) {
  let above: number[] = new Array(read.length + 1).fill(0);
  for (const pitch of truth) {
    const row = [0];
    for (const [at, other] of read.entries()) {
      row.push(other === pitch ? above[at]! + 1 : Math.max(above[at + 1]!, row[at]!));
    }
    above = row;
  }
  const kept = above.at(-1)!;
  return { kept, added: read.length - kept };
}

const trials = FILES.flatMap(([file, make]) =>
  DAMAGES.flatMap(([damage, lost, change]) =>
    [11, 12, 13].map((seed) => ({
      name: `${file} ${damage}`,
      lost,
      bytes: change(make(), drawing(seed * 7919)),
    })),
  ),
);

function outcome(bytes: readonly number[]) {
  try {
    const take = readTake(Uint8Array.from(bytes), { name: "x.mid" });
    // Both tracks begin at once: the line is in the order of the tracks.
    const notes = take.notes.toSorted((a, b) => a.part.localeCompare(b.part) || a.tick - b.tick);
    return {
      ...heldAgainst(
        LINE,
        notes.map(({ pitch }) => pitch),
      ),
      told: take.warnings.length > 0,
    };
  } catch (error) {
    if (!(error instanceof Problem)) throw error;
    return { kept: 0, added: 0, told: true };
  }
}

describe("a sound file damaged by a seeded hand", () => {
  it("is tried at least forty times", () => {
    expect(trials.length).toBeGreaterThanOrEqual(140);
  });

  it("never loses or gains a note without a word", () => {
    const silent = trials.filter(({ bytes }) => {
      const { kept, added, told } = outcome(bytes);
      return !told && (kept < LINE.length || added > 0);
    });
    expect(silent.map(({ name }) => name)).toEqual([]);
  });

  it("gives all notes but those that stand in the damage, in nineteen files of twenty", () => {
    const poor = trials.filter(({ bytes, lost }) => {
      const { kept, added } = outcome(bytes);
      return kept < LINE.length - lost || added > 3;
    });
    expect(poor.map(({ name }) => name).slice(Math.floor(trials.length / 20))).toEqual([]);
  });
});
