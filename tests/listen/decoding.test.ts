import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { certaintyOf } from "../../src/listen/certainty.ts";
import { DECODING, LOWEST_KEY, notesOf } from "../../src/listen/decode-notes.ts";
import type { HeardNote } from "../../src/listen/heard.ts";
import { HEARING, KEYS, type KeysHeard, keepKeys } from "../../src/listen/keys-heard.ts";
import { chanceFrom } from "../../src/statistics/chance.ts";

interface Drawn {
  readonly pitch: number;
  /** In frames; may lie between two. */
  readonly at: number;
  readonly frames: number;
  readonly peak?: number;
  readonly loudness?: number;
}

/** What a network would say that heard just these notes: a triangle of three frames on each side of each onset. */
function draw(notes: readonly Drawn[], frames = 200): KeysHeard {
  const map = () => new Float32Array(frames * KEYS);
  const heard = { frames, onset: map(), sounding: map(), loudness: map(), pedal: new Float32Array(frames) };
  for (const { pitch, at, frames: length, peak = 0.95, loudness = 0.6 } of notes) {
    const key = pitch - LOWEST_KEY;
    for (let t = 0; t < frames; t++) {
      const p = peak * Math.max(0, 1 - Math.abs(t - at) / 3);
      heard.onset[t * KEYS + key] = Math.max(heard.onset[t * KEYS + key]!, p);
      if (t >= at && t < at + length) {
        heard.sounding[t * KEYS + key] = 0.9;
        heard.loudness[t * KEYS + key] = loudness;
      }
      if (Math.abs(t - at) <= 3) heard.loudness[t * KEYS + key] = loudness;
    }
  }
  return heard;
}

/** @param piece frames that are taken at a time; all of them at once by default */
function decodeNotes({ frames, onset, sounding, loudness }: KeysHeard, piece = frames): HeardNote[] {
  const kept = keepKeys(frames);
  for (let from = 0; from < frames; from += piece) {
    const to = Math.min(frames, from + piece);
    const part = (values: Float32Array) => values.subarray(from * KEYS, to * KEYS);
    const said = { onset: part(onset), sounding: part(sounding), loudness: part(loudness) };
    kept.take({ frames: to - from, ...said });
  }
  kept.end();
  return notesOf(kept);
}

describe("decoding", () => {
  test("finds each note with its time, end and loudness", () => {
    const notes = decodeNotes(
      draw([
        { pitch: 60, at: 20, frames: 30, loudness: 0.5 },
        { pitch: 64, at: 50, frames: 10, loudness: 0.8 },
      ]),
    );
    expect(notes.map(({ pitch, velocity }) => [pitch, velocity])).toEqual([
      [60, 64],
      [64, 102],
    ]);
    expect(notes[0]!.onset).toBeCloseTo(0.2, 6);
    expect(notes[0]!.end).toBeCloseTo(0.5, 6);
    expect(notes[1]!.end).toBeCloseTo(0.6, 6);
  });

  test.each([20.25, 20.4, 20.75])("an onset between frames, at %f, is placed there", (at) => {
    const [note] = decodeNotes(draw([{ pitch: 60, at, frames: 30 }]));
    // Better than the frame: the half of one would be 5 ms.
    expect(Math.abs(note!.onset - at / 100)).toBeLessThan(0.0015);
  });

  test("a key struck twice is two notes, the first ending at the second", () => {
    const notes = decodeNotes(
      draw([
        { pitch: 60, at: 20, frames: 30 },
        { pitch: 60, at: 50, frames: 30 },
      ]),
    );
    expect(notes).toHaveLength(2);
    expect(notes[0]!.end).toBeCloseTo(0.5, 6);
    expect(notes.map((note) => note.doubt)).toEqual([null, null]);
  });

  test("no finger strikes a key twice in less than fifty milliseconds: that is one note", () => {
    const twice = (gap: number) =>
      decodeNotes(
        draw([
          { pitch: 60, at: 20, frames: 30, peak: 0.6 },
          { pitch: 60, at: 20 + gap, frames: 30, peak: 0.9 },
        ]),
      );
    const gap = Math.round(DECODING.apart * 100);
    expect(twice(gap - 1)).toHaveLength(1);
    expect(twice(gap)).toHaveLength(2);
  });

  test("a soon struck key that never fell silent is doubted as a re-strike; one that did is not", () => {
    const soon = Math.round(DECODING.restrike * 100) - 2;
    const ringing = draw([
      { pitch: 60, at: 20, frames: 60 },
      { pitch: 60, at: 20 + soon, frames: 30 },
    ]);
    expect(decodeNotes(ringing).map((note) => note.doubt)).toEqual([null, "re-strike"]);
    const lifted = draw([
      { pitch: 60, at: 20, frames: soon - 5 },
      { pitch: 60, at: 20 + soon, frames: 30 },
    ]);
    expect(decodeNotes(lifted).map((note) => note.doubt)).toEqual([null, null]);
  });

  test.each([12, 19, 24])("a softer note %i semitones above, struck with it, is doubted as a ghost", (up) => {
    const pair = (loudness: number, at = 20) =>
      decodeNotes(
        draw([
          { pitch: 48, at: 20, frames: 60, loudness: 0.7 },
          { pitch: 48 + up, at, frames: 30, peak: 0.5, loudness },
        ]),
      ).map((note) => note.doubt);
    expect(pair(0.3)).toEqual([null, "octave ghost"]);
    // As loud as the other, or struck later: a note of its own.
    expect(pair(0.7)).toEqual([null, null]);
    expect(pair(0.3, 40)).toEqual([null, null]);
  });

  test("an octave that outlasts the lower note is no ghost", () => {
    const notes = decodeNotes(
      draw([
        { pitch: 48, at: 20, frames: 20, loudness: 0.7 },
        { pitch: 60, at: 20, frames: 80, peak: 0.5, loudness: 0.3 },
      ]),
    );
    expect(notes[1]!.doubt).toBeNull();
  });

  test("unlikely onsets are no notes", () => {
    expect(decodeNotes(draw([{ pitch: 60, at: 20, frames: 30, peak: HEARING.onset - 0.02 }]))).toEqual([]);
  });

  test("a note that never sounds on is as short as a note can be", () => {
    const heard = draw([{ pitch: 60, at: 20, frames: 0 }]);
    expect(decodeNotes(heard)[0]!.end).toBeCloseTo(0.2 + DECODING.shortest, 6);
  });
});

describe("what is taken piece by piece", () => {
  const chance = chanceFrom(5);
  const drawn = Array.from({ length: 60 }, () => ({
    pitch: 40 + Math.floor(chance() * 12),
    at: chance() * 390,
    frames: 1 + Math.floor(chance() * 60),
    peak: 0.05 + 0.9 * chance(),
    loudness: chance(),
  }));

  test.each([1, 2, 3, 7, 100, 399])("gives the notes of the whole, %i frames at a time", (piece) => {
    const heard = draw(drawn, 400);
    const whole = decodeNotes(heard);
    expect(whole.length).toBeGreaterThan(30);
    expect(decodeNotes(heard, piece)).toEqual(whole);
  });
});

describe("certainty", () => {
  test("grows with the peak, and is less for what may be a trap", () => {
    for (const doubt of [null, "octave ghost", "re-strike"] as const) {
      let before = -1;
      for (let peak = 0; peak <= 1; peak += 0.05) {
        const now = certaintyOf(peak, doubt);
        expect(now).toBeGreaterThan(before);
        expect(now).toBeLessThan(1);
        if (doubt !== null && peak > 0) expect(now).toBeLessThan(certaintyOf(peak, null));
        before = now;
      }
    }
  });

  test("promises no more than was counted on pianos that the network never heard", () => {
    // corpus/listening/calibration.json: height of a peak, share of such peaks that were notes, how many there were.
    const { table } = JSON.parse(
      readFileSync(new URL("../../corpus/listening/calibration.json", import.meta.url), "utf8"),
    ) as { table: [number, number, number][] };
    for (const [peak, share, count] of table.filter(([, , n]) => n >= 40)) {
      const error = Math.sqrt((share * (1 - share)) / count) + 0.01;
      expect(certaintyOf(peak, null), `peak ${peak}`).toBeLessThan(share + 2 * error);
      expect(certaintyOf(peak, null), `peak ${peak}`).toBeGreaterThan(share - 2 * error - 0.02);
    }
  });
});
