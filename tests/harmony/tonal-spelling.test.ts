/** Spelling without chords: by the signature, by what is around, by the way that the line goes. */
import { describe, expect, it } from "vitest";
import { spellTake } from "../../src/harmony/index.ts";
import { spellTonally } from "../../src/harmony/tonal-spelling.ts";
import { fifthsOf, pitchNameAt } from "../../src/pitch/index.ts";
import type { Note, Take } from "../../src/take/index.ts";
import { emptyTake } from "../take/empty-take.ts";
import { pitchOf } from "./notation.ts";
import { notesOf, PRIMER_LINES } from "./primer-lines.ts";

function spelled(text: string, signature: number, step = 0.5): string {
  const notes = notesOf(text, signature, step);
  return spellTonally(notes)
    .map((place, i) => pitchNameAt(notes[i]!.pitch, place))
    .join(" ");
}

/** The same pitches with every black key by its other name, so that the names given away in the text are of no help. */
function disguised(text: string): string {
  const other: Readonly<Record<string, string>> = {
    "C#": "Db",
    Db: "C#",
    "D#": "Eb",
    Eb: "D#",
    "F#": "Gb",
    Gb: "F#",
    "G#": "Ab",
    Ab: "G#",
    "A#": "Bb",
    Bb: "A#",
  };
  return text.replace(/[A-G][#b]/g, (name) => other[name] ?? name);
}

describe("tonal spelling", () => {
  it.each(PRIMER_LINES)("spells %s", (_, signature, text) => {
    const expected = text.replaceAll("+", " ");
    expect(spelled(text, signature)).toBe(expected);
    expect(spelled(disguised(text).replaceAll("Cb5", "B4").replaceAll("E#5", "F5"), signature)).toBe(
      expected,
    );
  });

  it("keeps a name that is given, and lets it count for its neighbours", () => {
    const free = notesOf("F4 G#4 F4", 0);
    const given = free.map((note, i) => (i === 1 ? { ...note, place: fifthsOf("G#") } : note));
    expect(spellTonally(given)[1]).toBe(fifthsOf("G#"));
    const again = [...given, ...notesOf("Ab4", 0).map((note) => ({ ...note, at: 1.5 }))];
    expect(spellTonally(again)[3]).toBe(fifthsOf("G#"));
  });

  it("follows a change of signature", () => {
    const notes = [
      ...notesOf("Ab4 Bb4 Ab4", -4),
      ...notesOf("G#4 A4 B4 G#4", 4).map((n) => ({ ...n, at: n.at + 40 })),
    ];
    expect(spellTonally(notes).map((place, i) => pitchNameAt(notes[i]!.pitch, place))).toEqual(
      "Ab4 Bb4 Ab4 G#4 A4 B4 G#4".split(" "),
    );
  });

  it("names notes of the same moment to fit each other", () => {
    // F sharp with A sharp, or G flat with B flat, but never one of each.
    const both = spelled("F#4+A#4+C#5", 0)
      .split(" ")
      .map((name) => name.charAt(1));
    expect(new Set(both).size).toBe(1);
  });

  it("gives nothing for nothing", () => {
    expect(spellTonally([])).toEqual([]);
  });

  it("is linear: the end of a long take is as quick and as right as its beginning", () => {
    const long = Array.from({ length: 400 }, () => "A4 G#4 A4 B4 C5 B4").join(" ");
    expect(spelled(long, 0).endsWith("A4 G#4 A4 B4 C5 B4")).toBe(true);
  });
});

describe("spelling a take", () => {
  const note = (i: number, name: string, part: string, tick: number): Note => ({
    id: `n${i}`,
    pitch: pitchOf(name),
    onset: tick / 960,
    duration: 0.4,
    sounding: 0.4,
    velocity: 80,
    tick,
    ticks: 480,
    part,
    printed: null,
  });
  const take = (notes: Note[], keys: Take["keys"]): Take =>
    emptyTake({ notes, parts: [], tempos: [], tempoStated: false, meters: [], keys });

  it("reads every part by itself", () => {
    // One part leads up to A by G sharp; the other, an octave apart in time, falls from A flat.
    const notes = [
      note(1, "A4", "a", 0),
      note(2, "G#4", "a", 240),
      note(3, "A4", "a", 480),
      note(4, "G4", "b", 480),
      note(5, "F#4", "b", 720),
      note(6, "G4", "b", 960),
    ];
    expect(spellTake(take(notes, [{ tick: 0, fifths: 0, mode: "major" }]))).toEqual(
      "A4 G#4 A4 G4 F#4 G4".split(" "),
    );
  });

  it("obeys the signature in force, and takes none where none is stated", () => {
    const notes = [
      note(1, "Ab4", "a", 0),
      note(2, "Bb4", "a", 480),
      note(3, "G#4", "a", 9600),
      note(4, "F#4", "a", 10_080),
    ];
    const keys = [
      { tick: 0, fifths: -4, mode: "major" as const },
      { tick: 4800, fifths: 4, mode: "major" as const },
    ];
    expect(spellTake(take(notes, keys))).toEqual("Ab4 Bb4 G#4 F#4".split(" "));
    expect(spellTake(take([note(1, "E4", "a", 0), note(2, "B4", "a", 480)], []))).toEqual(["E4", "B4"]);
  });

  it("does not stumble over a note whose tick lies before that of the note before it", () => {
    const notes = [note(1, "A4", "a", 480), note(2, "G#4", "a", 470), note(3, "A4", "a", 960)];
    expect(spellTake(take(notes, []))).toEqual("A4 G#4 A4".split(" "));
  });
});
