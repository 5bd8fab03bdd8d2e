/**
 * Scale, available tensions and avoid notes by function, as the handbooks print them.
 *
 * Sources: Nettles & Graf, The Chord Scale Theory and Jazz Harmony, 1997 [memory]; Levine, The Jazz Theory Book, 1995
 * [memory], who calls avoid notes "handle with care" notes; blue notes [practice].
 */
import { describe, expect, it } from "vitest";
import { type ChordSpan, chordSpans, parseChart, parseKey, transposeChart } from "../../src/chart/index.ts";

interface Row {
  readonly what: string;
  /** The chord under test comes first. */
  readonly chart: string;
  readonly key?: string;
  readonly idiom?: "blues";
  readonly scale: string;
  readonly tensions: string;
  readonly avoid: string;
  readonly blue?: string;
}

const HANDBOOK: readonly Row[] = [
  { what: "V of V as a triad", chart: "D | G | C", scale: "Mixolydian", tensions: "9 6 b7", avoid: "11" },
  {
    what: "V7 of II in a minor key",
    chart: "A7 | Dm7 | G7 | Cm",
    key: "Cm",
    scale: "Mixolydian b9 b13",
    tensions: "b9 #9 b13",
    avoid: "11",
  },
  { what: "V suspended as a triad", chart: "Gsus4 | C", scale: "Mixolydian", tensions: "9 6 b7", avoid: "3" },
  {
    what: "a suspended dominant elsewhere",
    chart: "Eb7sus4 | C",
    scale: "Mixolydian",
    tensions: "9 13",
    avoid: "3",
  },
  {
    what: "Isus4 of a blues",
    chart: "Csus4 | F7 | C7",
    idiom: "blues",
    scale: "Mixolydian",
    tensions: "9 6 b7",
    avoid: "3",
    blue: "b3 b5",
  },
  {
    what: "Imaj7 of a blues",
    chart: "Cmaj7 | F7",
    idiom: "blues",
    scale: "Ionian",
    tensions: "9 13",
    avoid: "11",
    blue: "b3 b5",
  },
  {
    what: "IV as a triad of a blues",
    chart: "F | C7",
    idiom: "blues",
    scale: "Mixolydian",
    tensions: "9 6 b7",
    avoid: "11",
  },
  {
    what: "V as a triad of a blues",
    chart: "G | F7 | C7",
    idiom: "blues",
    scale: "Mixolydian",
    tensions: "9 6 b7",
    avoid: "11",
  },
  { what: "Imaj7", chart: "Cmaj7 | F", scale: "Ionian", tensions: "9 13", avoid: "11" },
  { what: "I6", chart: "C6 | F", scale: "Ionian", tensions: "9 7", avoid: "11" },
  { what: "Imaj9", chart: "Cmaj9 | F", scale: "Ionian", tensions: "9 13", avoid: "11" },
  { what: "IVmaj7", chart: "Fmaj7 | C", scale: "Lydian", tensions: "9 #11 13", avoid: "" },
  { what: "bVImaj7, off the tonic", chart: "Abmaj7 | C", scale: "Lydian", tensions: "9 #11 13", avoid: "" },
  {
    what: "bIIImaj7 in minor, off the tonic",
    chart: "Ebmaj7 | Cm",
    key: "Cm",
    scale: "Lydian",
    tensions: "9 #11 13",
    avoid: "",
  },
  {
    what: "Imaj7 with a sharp eleventh",
    chart: "Cmaj7#11 | G7",
    scale: "Lydian",
    tensions: "9 #11 13",
    avoid: "",
  },
  { what: "IIm7", chart: "Dm7 | G7 | C", scale: "Dorian", tensions: "9 11", avoid: "13" },
  {
    what: "IIm7 that names its thirteenth",
    chart: "Dm13 | G7 | C",
    scale: "Dorian",
    tensions: "9 11 13",
    avoid: "",
  },
  {
    what: "II of another dominant",
    chart: "Gm7 | C7 | Fmaj7 | C",
    scale: "Dorian",
    tensions: "9 11",
    avoid: "13",
  },
  { what: "m7 by default", chart: "Cm7 | F | C", scale: "Dorian", tensions: "9 11 13", avoid: "" },
  {
    what: "Im7 of a minor key",
    chart: "Cm7 | G7",
    key: "Cm",
    scale: "Dorian",
    tensions: "9 11 13",
    avoid: "b13",
  },
  {
    what: "IVm7 of a minor key",
    chart: "Fm7 | Cm",
    key: "Cm",
    scale: "Dorian",
    tensions: "9 11 13",
    avoid: "",
  },
  { what: "IIIm7", chart: "Em7 | Am7 | C", scale: "Phrygian", tensions: "11", avoid: "b9 b13" },
  {
    what: "IIIm9: its ninth is named, so it is no Phrygian chord",
    chart: "Em9 | Am7 | C",
    scale: "Aeolian",
    tensions: "9 11",
    avoid: "b13",
  },
  {
    what: "Vm7 of a minor key, the III of its relative major",
    chart: "Gm7 | Cm",
    key: "Cm",
    scale: "Phrygian",
    tensions: "11",
    avoid: "b9 b13",
  },
  { what: "VIm7", chart: "Am7 | Dm7 | C", scale: "Aeolian", tensions: "9 11", avoid: "b13" },
  { what: "V7", chart: "G7 | C", scale: "Mixolydian", tensions: "9 13", avoid: "11" },
  { what: "V9", chart: "G9 | C", scale: "Mixolydian", tensions: "9 13", avoid: "11" },
  { what: "V as a triad", chart: "G | C", scale: "Mixolydian", tensions: "9 6 b7", avoid: "11" },
  { what: "V7 of V", chart: "D7 | G7 | C", scale: "Mixolydian", tensions: "9 13", avoid: "11" },
  { what: "V7 of IV", chart: "C7 | Fmaj7 | C", scale: "Mixolydian", tensions: "9 13", avoid: "11" },
  {
    what: "a dominant with no function",
    chart: "F#7 | C",
    scale: "Mixolydian",
    tensions: "9 13",
    avoid: "11",
  },
  {
    what: "dominants in a row: each leads to a chord with a major third",
    chart: "A7 | D7 | G7 | C",
    scale: "Mixolydian",
    tensions: "9 13",
    avoid: "11",
  },
  { what: "V7 of II", chart: "A7 | Dm7 | G7 | C", scale: "Mixolydian b13", tensions: "9 b13", avoid: "11" },
  {
    what: "V7 of II that names its flat ninth",
    chart: "A7b9 | Dm7 | G7 | C",
    scale: "Mixolydian b9 b13",
    tensions: "b9 #9 b13",
    avoid: "11",
  },
  {
    what: "V7 of a half-diminished II",
    chart: "A7 | Dm7b5 | G7 | C",
    scale: "Mixolydian b9 b13",
    tensions: "b9 #9 b13",
    avoid: "11",
  },
  {
    what: "V7 of II that goes elsewhere",
    chart: "A7 | Fmaj7 | C",
    scale: "Mixolydian b13",
    tensions: "9 b13",
    avoid: "11",
  },
  {
    what: "V7 of III",
    chart: "B7 | Em7 | C",
    scale: "Mixolydian b9 b13",
    tensions: "b9 #9 b13",
    avoid: "11",
  },
  { what: "V7 of VI", chart: "E7 | Am7 | C", scale: "Mixolydian b9 b13", tensions: "b9 #9 b13", avoid: "11" },
  {
    what: "V7 of VI, deceptive",
    chart: "E7 | Fmaj7 | C",
    scale: "Mixolydian b9 b13",
    tensions: "b9 #9 b13",
    avoid: "11",
  },
  {
    what: "V7 of III that goes elsewhere",
    chart: "B7 | F | C",
    scale: "Mixolydian b9 b13",
    tensions: "b9 #9 b13",
    avoid: "11",
  },
  {
    what: "V7 of V that goes elsewhere",
    chart: "D7 | F | C",
    scale: "Mixolydian",
    tensions: "9 13",
    avoid: "11",
  },
  {
    what: "V7 of a minor key",
    chart: "G7 | Cm6",
    key: "Cm",
    scale: "Mixolydian b9 b13",
    tensions: "b9 #9 b13",
    avoid: "11",
  },
  {
    what: "V7 of a minor key that goes elsewhere",
    chart: "G7 | Abmaj7 | Cm6",
    key: "Cm",
    scale: "Mixolydian b9 b13",
    tensions: "b9 #9 b13",
    avoid: "11",
  },
  {
    what: "V7 of a minor key to a major I",
    chart: "G7 | C",
    key: "Cm",
    scale: "Mixolydian",
    tensions: "9 13",
    avoid: "11",
  },
  {
    what: "V7 of a major key to a minor I",
    chart: "G7 | Cm7 | C",
    scale: "Mixolydian b9 b13",
    tensions: "b9 #9 b13",
    avoid: "11",
  },
  {
    what: "V7 of a minor IV",
    chart: "C7 | Fm6 | C",
    scale: "Mixolydian b9 b13",
    tensions: "b9 #9 b13",
    avoid: "11",
  },
  {
    what: "V as a triad in minor",
    chart: "G | Cm",
    key: "Cm",
    scale: "Mixolydian b9 b13",
    tensions: "b9 #9 b13 b7",
    avoid: "11",
  },
  { what: "subV7", chart: "Db7 | Cmaj7", scale: "Lydian b7", tensions: "9 #11 13", avoid: "" },
  { what: "subV7 of V", chart: "Ab7 | G7 | C", scale: "Lydian b7", tensions: "9 #11 13", avoid: "" },
  { what: "IV7 outside the blues", chart: "F7 | Cmaj7", scale: "Lydian b7", tensions: "9 #11 13", avoid: "" },
  { what: "bVII7, the backdoor", chart: "Bb7 | Cmaj7", scale: "Lydian b7", tensions: "9 #11 13", avoid: "" },
  { what: "bVII7 elsewhere", chart: "Bb7 | Fmaj7 | C", scale: "Lydian b7", tensions: "9 #11 13", avoid: "" },
  { what: "bVI7", chart: "Ab7 | Cmaj7", scale: "Lydian b7", tensions: "9 #11 13", avoid: "" },
  { what: "7alt", chart: "G7alt | C", scale: "altered", tensions: "b9 #9 #11 b13", avoid: "" },
  { what: "13b9", chart: "G13b9 | C", scale: "half-whole", tensions: "b9 #9 #11 13", avoid: "11" },
  {
    what: "7b9 to a major chord",
    chart: "G7b9 | C",
    scale: "half-whole",
    tensions: "b9 #9 #11 13",
    avoid: "11",
  },
  {
    what: "7b9 to a minor chord",
    chart: "G7b9 | Cm",
    key: "Cm",
    scale: "Mixolydian b9 b13",
    tensions: "b9 #9 b13",
    avoid: "11",
  },
  {
    what: "7#9 to a minor chord",
    chart: "G7#9 | Cm",
    key: "Cm",
    scale: "Mixolydian b9 b13",
    tensions: "b9 #9 b13",
    avoid: "11",
  },
  {
    what: "7(b9,b13) to a major chord",
    chart: "G7b9b13 | C",
    scale: "Mixolydian b9 b13",
    tensions: "b9 #9 b13",
    avoid: "11",
  },
  {
    what: "7b13 to a major chord",
    chart: "G7b13 | C",
    scale: "Mixolydian b13",
    tensions: "9 b13",
    avoid: "11",
  },
  { what: "7#11", chart: "G7#11 | C", scale: "Lydian b7", tensions: "9 #11 13", avoid: "" },
  { what: "7b5", chart: "G7b5 | C", scale: "Lydian b7", tensions: "9 13", avoid: "5" },
  { what: "7#5", chart: "G7#5 | C", scale: "whole tone", tensions: "9 #11", avoid: "" },
  { what: "9#5", chart: "G9#5 | C", scale: "whole tone", tensions: "9 #11", avoid: "" },
  { what: "7#5#9", chart: "G7#5#9 | C", scale: "altered", tensions: "b9 #9 #11", avoid: "" },
  { what: "7sus4", chart: "G7sus4 | C", scale: "Mixolydian", tensions: "9 13", avoid: "3" },
  { what: "9sus4", chart: "G9sus4 | C", scale: "Mixolydian", tensions: "9 13", avoid: "3" },
  {
    what: "7sus4 with a flat ninth",
    chart: "G7sus4b9 | C",
    scale: "Phrygian",
    tensions: "b9 b3",
    avoid: "3 b13",
  },
  { what: "Isus4 as a triad", chart: "Csus4 | F", scale: "Ionian", tensions: "9 6 7", avoid: "3" },
  { what: "Isus2", chart: "Csus2 | F", scale: "Ionian", tensions: "3 11 6 7", avoid: "" },
  { what: "m6", chart: "Cm6 | G7", key: "Cm", scale: "melodic minor", tensions: "9 11 7", avoid: "" },
  {
    what: "m(maj7)",
    chart: "Cm(maj7) | G7",
    key: "Cm",
    scale: "melodic minor",
    tensions: "9 11 13",
    avoid: "",
  },
  {
    what: "m7b5 as II",
    chart: "Dm7b5 | G7 | Cm",
    key: "Cm",
    scale: "Locrian",
    tensions: "11 b13",
    avoid: "b9",
  },
  { what: "m7b5 as VII", chart: "Bm7b5 | C", scale: "Locrian", tensions: "11 b13", avoid: "b9" },
  {
    what: "m7b5 with a natural ninth",
    chart: "Dm9b5 | G7 | Cm",
    key: "Cm",
    scale: "Locrian natural 9",
    tensions: "9 11 b13",
    avoid: "",
  },
  {
    what: "dim7: a whole step above each chord tone",
    chart: "C#dim7 | Dm7 | C",
    scale: "whole-half",
    tensions: "9 11 b13 7",
    avoid: "",
  },
  { what: "dim as a triad", chart: "Bdim | C", scale: "whole-half", tensions: "9 11 b13 6 7", avoid: "" },
  { what: "maj7#5", chart: "Cmaj7#5 | F", scale: "Lydian augmented", tensions: "9 #11", avoid: "13" },
  { what: "augmented triad", chart: "Gaug | C", scale: "whole tone", tensions: "9 #11 b7", avoid: "" },
  { what: "I as a triad", chart: "C | F", scale: "Ionian", tensions: "9 6 7", avoid: "11" },
  {
    what: "I of a minor key as a triad",
    chart: "Cm | Fm",
    key: "Cm",
    scale: "Dorian",
    tensions: "9 11 6 b7",
    avoid: "b13",
  },
  {
    what: "a minor triad with a flat sixth",
    chart: "Cm(addb13) | G7",
    key: "Cm",
    scale: "Aeolian",
    tensions: "9 11 b13 b7",
    avoid: "",
  },
  { what: "a power chord on I", chart: "C5 | F5", scale: "Ionian", tensions: "9 3 11 6 7", avoid: "" },
  {
    what: "a power chord on I of a minor key",
    chart: "C5 | F5",
    key: "Cm",
    scale: "Dorian",
    tensions: "9 b3 11 6 b7",
    avoid: "",
  },
  {
    what: "I7 of a blues",
    chart: "C7 | F7",
    idiom: "blues",
    scale: "Mixolydian",
    tensions: "9 13",
    avoid: "11",
    blue: "b3 b5",
  },
  {
    what: "IV7 of a blues",
    chart: "F7 | C7",
    idiom: "blues",
    scale: "Mixolydian",
    tensions: "9 13",
    avoid: "11",
    blue: "b3 b5",
  },
  {
    what: "V7 of a blues",
    chart: "G7 | F7 | C7",
    idiom: "blues",
    scale: "Mixolydian",
    tensions: "9 13",
    avoid: "11",
    blue: "b3 b5",
  },
  {
    what: "I6 of a blues",
    chart: "C6 | F7",
    idiom: "blues",
    scale: "Ionian",
    tensions: "9 7",
    avoid: "11",
    blue: "b3 b5",
  },
  {
    what: "I as a triad of a blues",
    chart: "C | F7",
    idiom: "blues",
    scale: "Mixolydian",
    tensions: "9 6 b7",
    avoid: "11",
    blue: "b3 b5",
  },
  {
    what: "Im7 of a minor blues: its third is minor anyway",
    chart: "Cm7 | Fm7",
    key: "Cm",
    idiom: "blues",
    scale: "Dorian",
    tensions: "9 11 13",
    avoid: "b13",
    blue: "b5",
  },
  {
    what: "IVm7 of a minor blues: not the tonic",
    chart: "Fm7 | Cm7",
    key: "Cm",
    idiom: "blues",
    scale: "Dorian",
    tensions: "9 11 13",
    avoid: "",
  },
  {
    what: "V7 of a minor blues: the sharp ninth is its own",
    chart: "G7 | Cm7",
    key: "Cm",
    idiom: "blues",
    scale: "Mixolydian b9 b13",
    tensions: "b9 #9 b13",
    avoid: "11",
    blue: "b5",
  },
  {
    what: "I7#9 of a blues: the symbol names it",
    chart: "C7#9 | F7",
    idiom: "blues",
    scale: "half-whole",
    tensions: "b9 #9 #11 13",
    avoid: "11",
  },
  {
    what: "bVI7 of a blues: the sharp eleventh is its own",
    chart: "Ab7 | G7 | C7",
    idiom: "blues",
    scale: "Lydian b7",
    tensions: "9 #11 13",
    avoid: "",
    blue: "b3",
  },
  {
    what: "I7b5 of a blues: the symbol names the flat fifth",
    chart: "C7b5 | F7",
    idiom: "blues",
    scale: "Lydian b7",
    tensions: "9 13",
    avoid: "5",
    blue: "b3",
  },
  {
    what: "VI7 of a blues",
    chart: "A7 | Dm7 | G7 | C7",
    idiom: "blues",
    scale: "Mixolydian b13",
    tensions: "9 b13",
    avoid: "11",
    blue: "b3 b5",
  },
  {
    what: "IIm7 of a blues",
    chart: "Dm7 | G7 | C7",
    idiom: "blues",
    scale: "Dorian",
    tensions: "9 11",
    avoid: "13",
  },
];

const degrees = (colours: ChordSpan["tensions"]) => colours.map(({ degree }) => degree).join(" ");

function tonicOf(name: string) {
  const { tonic, tonicClass } = parseKey(name);
  return { tonic, tonicClass };
}

describe("scale, tensions and avoid notes by function", () => {
  for (const { what, chart, key, idiom, scale, tensions, avoid, blue } of HANDBOOK) {
    it(`${what} (${chart}): ${scale}, tensions ${tensions}, avoid ${avoid || "none"}`, () => {
      const [span] = chordSpans(parseChart(chart, { key: key ?? "C", idiom: idiom ?? "standard" }));
      expect(span!.scale).toBe(scale);
      expect(degrees(span!.tensions)).toBe(tensions);
      expect(degrees(span!.avoid)).toBe(avoid);
      expect(degrees(span!.blue)).toBe(blue ?? "");
      expect(span!.blue).toHaveLength(blue === undefined ? 0 : blue.split(" ").length);
    });
  }

  it("is the same in every key", () => {
    for (const tonic of ["Db", "E", "F", "A", "B"]) {
      for (const { what, chart, key, idiom, scale, tensions, avoid } of HANDBOOK) {
        const written = parseChart(chart, { key: key ?? "C", idiom: idiom ?? "standard" });
        const [span] = chordSpans(transposeChart(written, { ...written.key, ...tonicOf(tonic) }));
        const found = [span!.scale, degrees(span!.tensions), degrees(span!.avoid)];
        expect(found, `${what} in ${tonic}`).toEqual([scale, tensions, avoid]);
      }
    }
  });

  // [practice]: the notes under the four fingers of the shapes on root and fifth over C7.
  it("over C7 in a blues the scale without its avoid note, with the blue third, is C D Eb E G A Bb", () => {
    const [span] = chordSpans(parseChart("C7 | F7", { key: "C", idiom: "blues" }));
    const avoided = span!.avoid.map(({ semitones }) => semitones);
    const notes = [...span!.scaleTones.filter((tone) => !avoided.includes(tone)), span!.blue[0]!.semitones];
    expect(notes.sort((a, b) => a - b)).toEqual([0, 2, 3, 4, 7, 9, 10]);
  });
});
