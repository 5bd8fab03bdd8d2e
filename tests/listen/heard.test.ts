import { describe, expect, test } from "vitest";
import { type Heard, readHeard, writeHeard } from "../../src/listen/heard.ts";
import { listen, type Network } from "../../src/listen/listen.ts";
import { pedalMarks } from "../../src/listen/pedal.ts";
import { piecesOf } from "../../src/listen/pieces.ts";
import { Problem } from "../../src/take/index.ts";
import { tone } from "./sounds.ts";

const HEARD: Heard = {
  heard: "piano",
  version: 1,
  seconds: 3.25,
  notes: [
    { pitch: 60, onset: 0.5, end: 1.25, velocity: 70, certainty: 0.98, doubt: null },
    { pitch: 72, onset: 0.5012, end: 0.75, velocity: 30, certainty: 0.41, doubt: "octave ghost" },
  ],
  pedal: [{ seconds: 0.4, down: true }],
};

describe("the document of heard notes", () => {
  test("comes back as it was written", () => {
    expect(readHeard(writeHeard(HEARD))).toEqual(HEARD);
    expect(readHeard(writeHeard({ ...HEARD, notes: [] })).notes).toEqual([]);
  });

  test("is refused in words when it is broken or says what cannot be", () => {
    const cut = writeHeard(HEARD).subarray(0, 60);
    expect(() => readHeard(cut)).toThrow(Problem);
    const wrong = writeHeard({ ...HEARD, notes: [{ ...HEARD.notes[0]!, pitch: 300 }] });
    expect(() => readHeard(wrong)).toThrow(expect.objectContaining({ where: "notes.0.pitch" }));
  });
});

/** A network that hears nothing. */
const deaf: Network = async (_bands, frames) => ({
  onset: new Float32Array(frames * 88),
  sounding: new Float32Array(frames * 88),
  loudness: new Float32Array(frames * 88),
  pedal: new Float32Array(frames),
  company: new Float32Array(frames * 5),
});

describe("the pedal", () => {
  test("changes where it is likely, not wherever it wavers", () => {
    const likely = [0.1, 0.5, 0.7, 0.9, 0.55, 0.45, 0.3, 0.5, 0.1, 0.9];
    expect(pedalMarks(Float32Array.from(likely))).toEqual([
      { seconds: 0.02, down: true },
      { seconds: 0.06, down: false },
      { seconds: 0.09, down: true },
      { seconds: 0.1, down: false },
    ]);
  });
});

describe("listening", () => {
  test("takes every frame once, from pieces of three seconds with half a second around them, silence first", () => {
    const pieces = piecesOf(10 * 16_000);
    expect(pieces.map(({ from, to }) => [from, to])).toEqual([
      [-50, 300],
      [300, 600],
      [600, 900],
      [900, 1001],
    ]);
    expect(pieces[1]).toMatchObject({ heardFrom: 250, heardTo: 650 });
    expect(pieces[3]!.heardTo).toBe(1001);
  });

  test.each([
    ["silence", new Float32Array(32_000), "sound-silent"],
    ["half a second", tone(440, 0.5), "sound-too-short"],
    ["half an hour and more", new Float32Array(30 * 60 * 16_000 + 1), "sound-too-long"],
    ["what holds no piano", tone(440, 2), "no-piano-heard"],
  ])("refuses %s in words", async (_name, samples, code) => {
    await expect(listen(samples, deaf)).rejects.toMatchObject({ code, todo: expect.stringMatching(/\w/) });
  });

  test("places what is struck as the sound begins at its beginning", async () => {
    // Struck on the very first frame, as in a recording that was cut there: half of the slope lies before it.
    const struck: Network = async (bands, frames) => {
      const said = await deaf(bands, frames);
      const fill = (values: Float32Array, at: number, value: number) => {
        for (const key of [39, 43, 46]) values[at * 88 + key] = value;
      };
      // The first piece alone begins with half a second of silence.
      if (frames < 400) return said;
      for (let d = -2; d <= 2; d++) fill(said.onset, 50 + d, 1 - Math.abs(d) / 3);
      for (let t = 50; t < 90; t++) fill(said.sounding, t, 1);
      fill(said.loudness, 50, 0.5);
      return said;
    };
    const { notes } = await listen(tone(440, 4), struck);
    expect(notes.map(({ pitch, onset }) => [pitch, onset])).toEqual([
      [60, 0],
      [64, 0],
      [67, 0],
    ]);
    expect(notes[0]!.end).toBeCloseTo(0.4, 6);
  });

  test("says how far it is, and ends when it is told to", async () => {
    const shares: number[] = [];
    const stop = new AbortController();
    const progress = (share: number) => {
      shares.push(share);
      if (shares.length === 2) stop.abort(new Error("enough"));
    };
    await expect(listen(tone(440, 35), deaf, { progress, signal: stop.signal })).rejects.toThrow("enough");
    expect(shares).toHaveLength(2);
    // The first of twelve pieces, and the half second of silence before it.
    expect(shares[0]).toBeCloseTo(3.5 / 35.5, 2);
  });
});
