import { describe, expect, test } from "vitest";
import { readHeardNotes } from "../../src/ingest/heard/read-heard-notes.ts";
import { COMPANY_WIDTH, companyOf, othersIn, PIANO_SHARE } from "../../src/listen/company.ts";
import { type Company, type Heard, readHeard, writeHeard } from "../../src/listen/heard.ts";
import { listen, type Network } from "../../src/listen/listen.ts";
import { refuseOthers } from "../../src/listen/refusals.ts";
import { tone } from "./sounds.ts";

const ALONE: Company = { piano: 0.97, instruments: 0.02, voice: 0.01, drums: 0 };

function heardWith(company: Company | null): Heard {
  const notes = [60, 64, 67].map((pitch, i) => ({
    pitch,
    onset: 0.5 * i,
    end: 0.5 * i + 0.4,
    velocity: 70,
    certainty: 0.98,
    doubt: null,
  }));
  return { heard: "piano", version: 1, seconds: 2, notes, pedal: [], company };
}

describe("whose sound it is", () => {
  test("is told by the shares of what sounds; silence counts for nothing", () => {
    // Piano, instruments, voice, drums, nothing: two frames of music, one of silence.
    const said = Float32Array.from([0.5, 0.5, 0, 0, 0, 0.25, 0.25, 0.5, 0, 0, 0, 0, 0, 0, 1]);
    expect(said.length).toBe(3 * COMPANY_WIDTH);
    const company = companyOf(said)!;
    expect(company.piano).toBeCloseTo(0.375, 6);
    expect(company.instruments).toBeCloseTo(0.375, 6);
    expect(company.voice).toBeCloseTo(0.25, 6);
    expect(companyOf(Float32Array.from([0, 0, 0, 0, 1]))).toBeNull();
  });

  test("names those who are heard, the strongest first", () => {
    expect(othersIn({ piano: 0.2, instruments: 0.3, voice: 0, drums: 0.5 })).toBe(
      "drums and other instruments",
    );
    expect(othersIn({ ...ALONE, instruments: 0.01, voice: 0.02 })).toBe("voices");
  });

  test("is kept in the document, and may be missing in older ones", () => {
    expect(readHeard(writeHeard(heardWith(ALONE))).company).toEqual(ALONE);
    expect(readHeard(writeHeard(heardWith(null))).company ?? null).toBeNull();
  });
});

describe("others than the piano", () => {
  const most: Company = { piano: 0.05, instruments: 0.2, voice: 0.75, drums: 0 };

  test("are refused in words when most of the sound is theirs", () => {
    expect(() => refuseOthers(heardWith(ALONE))).not.toThrow();
    expect(() => refuseOthers(heardWith(null))).not.toThrow();
    expect(() => refuseOthers(heardWith(most))).toThrow(
      expect.objectContaining({
        code: "others-heard",
        message: expect.stringMatching(/5 % .*voices and other instruments/),
      }),
    );
  });

  test("are refused from the network's answer on, and said when they are some", async () => {
    const says =
      (shares: readonly number[]): Network =>
      async (_bands, frames) => ({
        onset: new Float32Array(frames * 88),
        sounding: new Float32Array(frames * 88),
        loudness: new Float32Array(frames * 88),
        pedal: new Float32Array(frames),
        company: Float32Array.from({ length: frames * COMPANY_WIDTH }, (_, i) => shares[i % COMPANY_WIDTH]!),
      });
    await expect(listen(tone(440, 2), says([0.1, 0.9, 0, 0, 0]))).rejects.toMatchObject({
      code: "others-heard",
    });
    await expect(listen(tone(440, 2), says([0.95, 0.05, 0, 0, 0]))).rejects.toMatchObject({
      code: "no-piano-heard",
    });
  });

  test("are said in a warning when they are some", () => {
    const codes = (piano: number) =>
      readHeardNotes(
        writeHeard(heardWith({ piano, instruments: 0, voice: 0, drums: 1 - piano })),
      ).warnings.map(({ code }) => code);
    expect(codes(PIANO_SHARE.warned - 0.01)).toContain("others-heard-too");
    expect(codes(PIANO_SHARE.warned + 0.01)).not.toContain("others-heard-too");
  });
});
