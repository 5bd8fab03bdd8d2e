import { describe, expect, it } from "vitest";
import {
  barsInWords,
  beatInFigures,
  clock,
  count,
  counted,
  fill,
  fingerName,
  fingerNumbered,
  intervalInWords,
  listInWords,
  noteInWords,
  percent,
  placeInWords,
  placesInWords,
  shareInWords,
  stepInWords,
  timesInWords,
  withAccidentals,
} from "../../src/words/index.ts";

describe("notes, intervals and fingers", () => {
  it.each([
    ["Eb4", "E flat"],
    ["F#5", "F sharp"],
    ["C4", "C"],
    ["Bbb3", "B double flat"],
    ["F##5", "F double sharp"],
    ["Bb-1", "B flat"],
    ["Cb4", "C flat"],
    ["Eb", "E flat"],
  ])("says %s as %s", (name, words) => {
    expect(noteInWords(name)).toBe(words);
  });

  it.each([
    [0, "the same note"],
    [-1, "a half step"],
    [2, "a whole step"],
    [-3, "a third"],
    [4, "a third"],
    [5, "a fourth"],
    [6, "a tritone"],
    [-7, "a fifth"],
    [8, "a sixth"],
    [9, "a sixth"],
    [10, "a seventh"],
    [11, "a seventh"],
    [-12, "an octave"],
    [13, "more than an octave"],
  ])("says a step of %s semitones as %s", (semitones, words) => {
    expect(stepInWords(semitones)).toBe(words);
  });

  it("names the fingers", () => {
    expect([1, 2, 3, 4, 5].map((finger) => fingerNumbered(finger))).toEqual([
      "thumb",
      "second finger",
      "third finger",
      "fourth finger",
      "little finger",
    ]);
  });

  // Names of intervals as any primer of theory has them: seven semitones a perfect fifth, twelve an octave.
  it.each([
    [0, "one note"],
    [7, "a fifth"],
    [12, "an octave"],
    [19, "an octave and a fifth"],
    [28, "two octaves and a third"],
  ])("says a width of %s semitones as %s", (semitones, words) => {
    expect(intervalInWords(semitones)).toBe(words);
  });

  it("prints accidentals, and leaves letters of words alone", () => {
    expect(["Bb7(#9)", "F#m7b5", "Eb", "Dbmaj7"].map(withAccidentals)).toEqual([
      ...["B♭7(♯9)", "F♯m7♭5", "E♭", "D♭maj7"],
    ]);
  });

  // Fingers of the hand, thumb first, as piano methods number and name them. [practice]
  it("names the fingers of a hand", () => {
    expect([1, 2, 3, 4, 5].map(fingerName)).toEqual([
      ...["thumb", "index finger", "middle finger", "ring finger", "little finger"],
    ]);
  });
});

describe("numbers", () => {
  // As style guides for English have it: small numbers in words, long ones with a comma at the thousands. [practice]
  it("are words while small, and figures beyond", () => {
    expect([0, 1, 3, 12, 13, 1200].map((n) => count(n, "chorus", "choruses"))).toEqual([
      ...["no choruses", "one chorus", "three choruses", "twelve choruses", "13 choruses", "1,200 choruses"],
    ]);
    expect([1, 2].map((n) => counted(n, "note"))).toEqual(["1 note", "2 notes"]);
    expect([0, 1, 2, 3].map(timesInWords)).toEqual(["not once", "once", "twice", "three times"]);
  });

  it("of shares are as exact as they are meant", () => {
    expect([0, 0.001, 0.25, 0.614, 1].map(percent)).toEqual(["0 %", "<1 %", "25 %", "61 %", "100 %"]);
    expect([0, 0.34, 0.5, 0.75, 1].map(shareInWords)).toEqual([
      ...["none", "about a third", "about half", "three quarters", "all"],
    ]);
  });

  it("of seconds are minutes and seconds", () => {
    expect([0, 59.6, 67, 3600].map(clock)).toEqual(["0:00", "1:00", "1:07", "60:00"]);
  });
});

describe("lists and places", () => {
  it("join their last two by and", () => {
    expect([[], ["a"], ["a", "b"], ["a", "b", "c"]].map(listInWords)).toEqual([
      "",
      "a",
      "a and b",
      "a, b and c",
    ]);
    expect(barsInWords([5])).toBe("bar 5");
    expect(barsInWords([5, 6, 9])).toBe("bars 5, 6 and 9");
    expect(barsInWords(["1", "2", "3"], 2)).toBe("bars 1, 2 and 1 other");
  });

  it("say bar, chorus and beat, and the pickup by its name", () => {
    expect(placeInWords({ chorus: 2, bar: 5, beat: 2.5 })).toBe("chorus 2, bar 5, beat 2½");
    expect(placeInWords({ chorus: 1, bar: 0, beat: 4 })).toBe("pickup to chorus 1, beat 4");
    expect(placeInWords({ chorus: 1, bar: 3, beat: null })).toBe("chorus 1, bar 3");
    expect([1, 3 + 1 / 3, 2.75, 1.9, 0.5].map(beatInFigures)).toEqual(["1", "3⅓", "2¾", "1.90", "½"]);
    expect(
      placesInWords(
        [
          { chorus: 1, bar: 2 },
          { chorus: 1, bar: 2 },
          { chorus: 2, bar: -1 },
        ],
        2,
      ),
    ).toBe("bar 2 of chorus 1, the pickup");
  });

  it("fill a sentence, and miss no word in silence", () => {
    expect(fill("{share} of the notes. {more}", { share: "all", more: "go on" })).toBe(
      "All of the notes. Go on",
    );
    expect(() => fill("{share}", {})).toThrow(/no word for \{share\}/);
  });
});
