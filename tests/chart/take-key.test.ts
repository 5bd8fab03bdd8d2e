import { describe, expect, it } from "vitest";
import { keyName, parseChart, parseKey } from "../../src/chart/index.ts";
import { settingInTake, spelledInTake } from "../../src/chart/take-key.ts";
import type { KeyMark, Take } from "../../src/take/index.ts";

import { emptyTake } from "../take/empty-take.ts";

const signed = (fifths: number | null, format: Take["format"] = "musicxml") => {
  const keys: KeyMark[] = fifths === null ? [] : [{ tick: 0, fifths, mode: "major" }];
  return emptyTake({ format, keys });
};
const setting = (chords: string, take: Take) => {
  const { key, idiom } = settingInTake(parseChart(chords).bars, take);
  return `${keyName(key)} ${idiom}`;
};

describe("the key of a take", () => {
  it("is that of the signature where the chords fit two keys alike", () => {
    // I and IV of C are V and I of F; I and IV of G are V and I of C.
    expect(setting("C | F | C | F", signed(-1))).toBe("F standard");
    expect(setting("C | F | C | F", signed(0))).toBe("C standard");
    expect(setting("G | C | G | C", signed(1))).toBe("G standard");
  });

  it("is the relative minor of the signature where the chords say so", () => {
    expect(setting("Em7 | Am7 | B7 | Em7", signed(1))).toBe("Em standard");
  });

  it("is what the chords say against a signature that they do not fit", () => {
    expect(setting("F7 | Bb7 | F7 | C7", signed(3))).toBe("F blues");
    expect(setting("Dm7 | G7 | Cmaj7 | C6", signed(-1))).toBe("C standard");
  });

  it("does not believe the signature of C that sequencers write into every file", () => {
    const chords = "F | C | F | C";
    expect(setting(chords, signed(0, "midi"))).toBe(setting(chords, signed(null, "midi")));
    expect(setting("C | F | C | F", signed(-1, "midi"))).toBe("F standard");
  });

  it("is the earlier of two that make as much sense", () => {
    expect(setting("N.C. | N.C.", signed(null))).toBe("C standard");
  });
});

describe("the spelling of a key in a take", () => {
  const spelled = (name: string, take: Take) => keyName(spelledInTake(parseKey(name), take));
  it("is that of its signature", () => {
    expect(spelled("Gb", signed(6))).toBe("F#");
    expect(spelled("F#", signed(-6))).toBe("Gb");
    expect(spelled("Ebm", signed(6))).toBe("D#m");
    expect(spelled("B", signed(-7, "midi"))).toBe("Cb");
  });

  // Keys as they are usually signed: with the fewer accidentals. [practice]
  it("is the usual one where the signature is of another key, or there is none", () => {
    expect(spelled("C#", signed(1))).toBe("Db");
    expect(spelled("Abm", signed(null))).toBe("G#m");
    expect(spelled("Am", signed(0, "midi"))).toBe("Am");
  });
});
