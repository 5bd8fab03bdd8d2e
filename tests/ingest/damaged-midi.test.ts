/**
 * MIDI files with bytes that the standard forbids (SMF 1.0, "MTrk Event"; MIDI 1.0, "Data Bytes", "System Messages"):
 * where notes can be had they are read, with a warning; where none can, the cause is named with its byte.
 */
import { describe, expect, it } from "vitest";
import { readTake } from "../../src/ingest/index.ts";
import { Problem } from "../../src/take/index.ts";
import { ascii, END_OF_TRACK, midiFile, trackChunk } from "./midi-bytes.ts";

const NOTE = [0, 0x90, 60, 80, 96, 0x80, 60, 0];
const SECOND = [0, 0x90, 64, 80, 96, 0x80, 64, 0];
const read = (bytes: Uint8Array) => {
  const { notes, warnings } = readTake(bytes, { name: "x.mid" });
  return {
    notes: notes.map(({ pitch, tick, ticks, velocity }) => [pitch, tick, ticks, velocity]),
    codes: warnings.map(({ code }) => code),
  };
};
const problemOf = (bytes: Uint8Array): Problem => {
  try {
    readTake(bytes, { name: "x.mid" });
  } catch (error) {
    if (error instanceof Problem) return error;
    throw error;
  }
  throw new Error("not refused");
};
const BOTH = [
  [60, 0, 96, 80],
  [64, 96, 96, 80],
];

describe("a damaged MIDI file", () => {
  it.each([
    ["a real-time clock between events", [0, 0xf8]],
    ["active sensing between events", [0, 0xfe]],
    ["a song position", [0, 0xf2, 1, 2]],
    ["a tune request", [0, 0xf6]],
  ])("with %s is read past it", (_what, stray) => {
    const take = read(midiFile(0, 96, trackChunk(NOTE, stray, SECOND, END_OF_TRACK)));
    expect(take).toEqual({ notes: BOTH, codes: ["stray-system-bytes"] });
  });

  it("with a real-time byte inside a message is read without it", () => {
    const inside = [0, 0x90, 64, 0xf8, 80, 96, 0x80, 64, 0];
    expect(read(midiFile(0, 96, trackChunk(NOTE, inside, END_OF_TRACK)))).toEqual({
      notes: BOTH,
      codes: ["stray-system-bytes"],
    });
  });

  it("with a velocity of 224 keeps the note, without the top bit", () => {
    const loud = [0, 0x90, 64, 224, 96, 0x80, 64, 0];
    expect(read(midiFile(0, 96, trackChunk(NOTE, loud, END_OF_TRACK)))).toEqual({
      notes: [BOTH[0], [64, 96, 96, 96]],
      codes: ["data-byte-masked"],
    });
  });

  it("whose track begins some bytes late is read from the track", () => {
    const file = [...midiFile(0, 96, trackChunk(NOTE, SECOND, END_OF_TRACK))];
    file.splice(14, 0, 0, 0, 7);
    expect(read(Uint8Array.from(file))).toEqual({ notes: BOTH, codes: ["bytes-before-track"] });
  });

  it("with text before its track is read from the track, whatever length the text would claim", () => {
    const file = [...midiFile(0, 96, trackChunk(NOTE, SECOND, END_OF_TRACK))];
    file.splice(14, 0, ...[..."made by hand"].map((letter) => letter.charCodeAt(0)));
    expect(read(Uint8Array.from(file))).toEqual({ notes: BOTH, codes: ["bytes-before-track"] });
  });

  it("whose first track claims more than the file has does not lose the second", () => {
    const file = [...midiFile(1, 96, trackChunk(NOTE, END_OF_TRACK), trackChunk(SECOND, END_OF_TRACK))];
    file[14 + 6] = 0xff;
    const { notes, codes } = read(Uint8Array.from(file));
    expect(notes.map(([pitch]) => pitch)).toEqual([60, 64]);
    expect(codes).toContain("track-length");
  });

  it("of which nothing can be read is refused with the cause and its byte", () => {
    const broken = midiFile(0, 96, trackChunk([0, 60, 80, 0, 64, 80]));
    const problem = problemOf(broken);
    expect(problem.code).toBe("broken-file");
    expect(problem.message).toMatch(/data byte without a status byte/);
    expect(problem.where).toBe("track 1, byte 22");
  });

  it.each([
    ["data bytes without a status byte", [0, 60, 80]],
    ["a meta event that claims more than the track has", [0, 0xff, 0x01, 0xff, 0x7f]],
    ["a delta time that never ends", [0xff, 0xff, 0xff, 0xff, 0xff]],
    ["bytes of something else", [...ascii("lost and found"), 0xff, 0xfd, 0xb7]],
  ])("with %s is read again where events follow each other", (_what, bytes) => {
    const take = read(midiFile(0, 96, trackChunk(bytes, NOTE, SECOND, END_OF_TRACK)));
    expect(take.notes.map(([pitch]) => pitch)).toEqual([60, 64]);
    expect(take.codes).toContain("damaged-bytes");
  });

  it("with a message whose data are lost keeps the time of what follows", () => {
    // Pressure on a key of no such number, 96 ticks after the first note; the second follows 96 ticks behind it.
    const lost = [96, 0xa0, 0xc1, 0xc2];
    const later = [96, 0x90, 64, 80, 96, 0x80, 64, 0];
    expect(read(midiFile(0, 96, trackChunk(NOTE, lost, later, NOTE, END_OF_TRACK))).notes).toEqual([
      [60, 0, 96, 80],
      [64, 288, 96, 80],
      [60, 384, 96, 80],
    ]);
  });

  it("says where the damage is, and that what follows may stand too early", () => {
    const file = midiFile(0, 96, trackChunk([0, 60, 80], NOTE, SECOND, END_OF_TRACK));
    const gap = readTake(file, { name: "x.mid" }).warnings.find(({ code }) => code === "damaged-bytes");
    expect(gap).toMatchObject({ where: "track 1, byte 22", message: expect.stringMatching(/too early/) });
  });

  it("does not take the bytes of a track that breaks off for events of the next one", () => {
    const file = [
      ...midiFile(1, 96, trackChunk(NOTE, [0xff, 0xff, 0xff, 0xff, 0xff]), trackChunk(SECOND, END_OF_TRACK)),
    ];
    // The first track claims all of the second.
    file[14 + 7] = file.length - 22;
    const { notes } = read(Uint8Array.from(file));
    expect(notes.map(([pitch]) => pitch)).toEqual([60, 64]);
  });

  it("is said to hold no notes only when that is so", () => {
    expect(problemOf(midiFile(0, 96, trackChunk(END_OF_TRACK))).code).toBe("no-notes");
    const cut = midiFile(0, 96, trackChunk(NOTE, END_OF_TRACK)).slice(0, 24);
    expect(problemOf(cut)).toMatchObject({ code: "broken-file", where: expect.stringMatching(/byte 24/) });
  });
});
