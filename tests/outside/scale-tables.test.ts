/** Our scales against the tables of tonal 6.4.3 and @musodojo/music-theory-data 28. */
import { noteCollections } from "@musodojo/music-theory-data";
import { Interval, Scale as TonalScale } from "tonal";
import { describe, expect, it } from "vitest";
import { SCALES, scaleNamed } from "../../src/chart/index.ts";

/** Our name, tonal's name, the key in the other table (null where it has none). */
const NAMES: readonly (readonly [
  ours: string,
  tonal: string,
  musodojo: keyof typeof noteCollections | null,
])[] = [
  ["Ionian", "ionian", "ionian"],
  ["Dorian", "dorian", "dorian"],
  ["Phrygian", "phrygian", "phrygian"],
  ["Lydian", "lydian", "lydian"],
  ["Mixolydian", "mixolydian", "mixolydian"],
  ["Aeolian", "aeolian", "aeolian"],
  ["Locrian", "locrian", "locrian"],
  ["Locrian natural 9", "locrian #2", "aeolianFlat5"],
  ["Mixolydian b13", "mixolydian b6", "mixolydianFlat6"],
  ["Mixolydian b9 b13", "phrygian dominant", "phrygianDominant"],
  ["Lydian b7", "lydian dominant", "lydianDominant"],
  ["altered", "altered", "altered"],
  ["half-whole", "half-whole diminished", "halfWholeDiminished"],
  ["whole-half", "whole-half diminished", "wholeHalfDiminished"],
  ["whole tone", "whole tone", "wholeTone"],
  ["melodic minor", "melodic minor", "melodicMinor"],
  ["harmonic minor", "harmonic minor", "harmonicMinor"],
  ["Lydian augmented", "lydian augmented", "lydianAugmented"],
  ["major pentatonic", "major pentatonic", "majorPentatonic"],
  ["minor pentatonic", "minor pentatonic", "minorPentatonic"],
  ["blues", "blues", "bluesPentatonic"],
];

describe("scales", () => {
  it.each(NAMES)("%s has the tones that both tables give it", (ours, tonal, musodojo) => {
    const tones = scaleNamed(ours).tones;
    const intervals = TonalScale.get(`C ${tonal}`).intervals.map((interval) => Interval.semitones(interval)!);
    expect(tones).toEqual(intervals);
    if (musodojo !== null) expect(tones).toEqual(noteCollections[musodojo].integers);
  });

  it("are all compared", () => {
    expect(NAMES.map(([ours]) => ours)).toEqual(SCALES.map(({ name }) => name));
  });
});
