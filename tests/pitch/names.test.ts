import { Interval as TonalInterval, Key as TonalKey, Note as TonalNote } from "tonal";
import { describe, expect, it } from "vitest";
import {
  alterInSignature,
  alterOf,
  classNameOf,
  classOf,
  intervalOfDegree,
  isBlackKey,
  keyboardName,
  mod,
  moveName,
  nameOfStep,
  nameOnStep,
  partsOf,
  rootNameInKey,
  signatureMovedBy,
  signatureOf,
  simpleName,
  stepOf,
  tonicOf,
  transposeName,
  usualSteps,
  usualTonics,
  withOctave,
} from "../../src/pitch/index.ts";

/** Every letter with up to two accidentals. */
const NAMES = [..."CDEFGAB"].flatMap((letter) => ["bb", "b", "", "#", "##"].map((signs) => letter + signs));

describe("names of pitches", () => {
  it("come apart, and say where a text is none", () => {
    expect(partsOf("Ebb-1")).toEqual({ letter: "E", step: 2, alter: -2, octave: -1 });
    expect(partsOf("F##")).toEqual({ letter: "F", step: 3, alter: 2, octave: null });
    expect(["C", "D", "E", "F", "G", "A", "B"].map(stepOf)).toEqual([0, 1, 2, 3, 4, 5, 6]);
    expect(["C", "Eb", "F##"].map(alterOf)).toEqual([0, -1, 2]);
    for (const text of ["", "H", "c", "Eb#", "E4b", "4"]) expect(() => partsOf(text)).toThrow(/is no name/);
  });

  // A library's parser is the outside truth here: it is not the part that the names are built on.
  it("mean the pitch that a library reads from them", () => {
    for (const name of NAMES) {
      expect([name, classOf(name)]).toEqual([name, TonalNote.chroma(name)]);
      for (const octave of [0, 4, 8]) {
        const pitch = TonalNote.get(name + octave).height;
        expect(withOctave(name, pitch)).toBe(name + octave);
        expect(nameOnStep(stepOf(name), pitch)).toBe(name);
      }
    }
  });

  // Middle C is 60, and the piano runs from A0, 21, to C8, 108 (MIDI 1.0 and the instrument).
  it("of the keyboard are usual ones, as flats or as sharps", () => {
    expect([21, 60, 61, 70, 108].map((pitch) => keyboardName(pitch, "flats"))).toEqual([
      ...["A0", "C4", "Db4", "Bb4", "C8"],
    ]);
    for (let pitch = 0; pitch < 128; pitch++) {
      expect(keyboardName(pitch, "flats")).toBe(TonalNote.fromMidi(pitch));
      expect(keyboardName(pitch, "sharps")).toBe(TonalNote.fromMidiSharps(pitch));
    }
    expect([13, -1].map((c) => classNameOf(c, "flats"))).toEqual(["Db", "B"]);
  });

  it("lose their double accidentals, towards the side that they lean to", () => {
    expect(["Bbb", "Ebb", "Dbb", "Cbb", "F##", "C##", "B##", "Cb", "E#", "D"].map(simpleName)).toEqual([
      ...["A", "D", "C", "Bb", "G", "D", "C#", "Cb", "E#", "D"],
    ]);
  });

  it("move by letters and semitones", () => {
    expect(transposeName("F", "C", "Gb")).toBe("Cb");
    expect(transposeName("F#", "C", "Bb")).toBe("E");
    expect(transposeName("A", "C", "A#")).toBe("G");
    expect(transposeName("Bb", "F", "F#")).toBe("B");
    expect(transposeName("Eb", "Bb", "C")).toBe("F");
    expect(transposeName("B", "E", "C")).toBe("G");
  });

  it("are moved by intervals as a library moves them", () => {
    for (const interval of [
      "1P",
      "2m",
      "2M",
      "3m",
      "4P",
      "4A",
      "5P",
      "6m",
      "7M",
      "9M",
      "-2M",
      "-5P",
      "-13M",
    ]) {
      const { semitones, dir, num } = TonalInterval.get(interval) as never as Record<string, number>;
      const steps = dir! * (Math.abs(num!) - 1);
      for (const name of NAMES) {
        const moved = moveName(name, { steps, semitones: semitones! });
        expect([name, interval, moved]).toEqual([name, interval, TonalNote.transpose(name, interval)]);
      }
    }
  });

  it("are chosen for a root by its place in the key", () => {
    const inKey = (tonic: string) =>
      Array.from({ length: 12 }, (_, above) => rootNameInKey(classOf(tonic) + above, tonic)).join(" ");
    expect(inKey("C")).toBe("C Db D Eb E F F# G Ab A Bb B");
    expect(inKey("Eb")).toBe("Eb Fb F Gb G Ab A Bb Cb C Db D");
    expect(inKey("E")).toBe("E F F# G G# A A# B C C# D D#");
  });
});

describe("intervals", () => {
  it("lie above a root as the degree says", () => {
    const semitones = {
      "1": 0,
      b3: 3,
      "3": 4,
      "#4": 6,
      b5: 6,
      "5": 7,
      b7: 10,
      bb7: 9,
      b9: 13,
      "#11": 18,
      "13": 21,
    };
    for (const [degree, wide] of Object.entries(semitones)) {
      expect([degree, intervalOfDegree(degree).semitones]).toEqual([degree, wide]);
    }
    expect(intervalOfDegree("b13").steps).toBe(12);
  });

  // Transposing instruments: clarinet in Bb, alto saxophone in Eb, horn in F, tenor saxophone (a ninth down).
  it("have their usual letters where only semitones are known", () => {
    expect([-2, -9, -7, -14, 0, 12].map(usualSteps)).toEqual([-1, -5, -4, -8, 0, 7]);
  });
});

describe("key signatures", () => {
  it("count as a library counts them, and lead back to the tonic", () => {
    for (const tonic of ["Cb", "Gb", "Db", "Ab", "Eb", "Bb", "F", "C", "G", "D", "A", "E", "B", "F#", "C#"]) {
      const fifths = signatureOf({ tonic, mode: "major" });
      expect([tonic, fifths]).toEqual([tonic, TonalKey.majorKey(tonic).alteration]);
      expect(tonicOf(fifths, "major")).toBe(tonic);
      expect(tonicOf(fifths, "minor")).toBe(TonalKey.majorKey(tonic).minorRelative);
    }
  });

  it("alter the letters of their major scale", () => {
    for (let fifths = -7; fifths <= 7; fifths++) {
      const scale = [0, 1, 2, 3, 4, 5, 6].map((step) => nameOfStep(step, alterInSignature(step, fifths)));
      expect(scale.sort()).toEqual([...TonalKey.majorKey(tonicOf(fifths, "major")).scale].sort());
    }
  });

  // As keys are signed in print: F sharp major and E flat minor of the pairs with six. [practice]
  it("are the usual ones on each of the twelve tonics", () => {
    expect(usualTonics("major").join(" ")).toBe("C Db D Eb E F F# G Ab A Bb B");
    expect(usualTonics("minor").join(" ")).toBe("C C# D Eb E F F# G G# A Bb B");
  });

  // A part for clarinet in Bb sounds a whole step below: two sharps fewer; for an alto in Eb three more flats.
  it("move with the music", () => {
    expect([-2, -9, 2, 7, 0, 12, 1].map(signatureMovedBy)).toEqual([-2, -3, 2, 1, 0, 0, -5]);
  });
});

describe("the keyboard", () => {
  it("has its black keys in twos and threes", () => {
    const octave = Array.from({ length: 12 }, (_, i) => (isBlackKey(60 + i) ? "b" : "w")).join("");
    expect(octave).toBe("wbwbwwbwbwbw");
    expect([-2, -1, 22].map(isBlackKey)).toEqual([true, false, true]);
  });

  it("counts round, downward too", () => {
    expect([-13, -1, 0, 12, 25].map((n) => mod(n, 12))).toEqual([11, 11, 0, 0, 1]);
  });
});
