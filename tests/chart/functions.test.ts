import { describe, expect, it } from "vitest";
import { chordSpans, parseChart, parseKey, transposeChart } from "../../src/chart/index.ts";

/** "symbol function numeral" of every chord. */
function heard(chart: string, key = "C", idiom: "blues" | "standard" = "standard") {
  return chordSpans(parseChart(chart, { key, idiom })).map((span) =>
    `${span.symbol}: ${span.function} ${span.numeral}`.trim(),
  );
}

/** Every row: a progression in C or C minor, and what its chords do. Nettles & Graf 1997 [memory] unless said. */
type Row = readonly [what: string, chart: string, ...expected: string[]];

const IN_C: readonly Row[] = [
  [
    "V of V, delayed by a half-diminished II",
    "D7 | Dm7b5 | G7 | C",
    "D7: secondary-dominant V7/V",
    "Dm7b5: two IIm7b5",
    "G7: dominant V7",
    "C: tonic I",
  ],
  [
    "no delay over a chord that rests",
    "C7 | Cmaj7 | Fmaj7",
    "C7: tonic I7",
    "Cmaj7: tonic Imaj7",
    "Fmaj7: subdominant IVmaj7",
  ],
  [
    "a dominant struck three times",
    "A7 | A7 | A7 | Dm7 | C",
    "A7: secondary-dominant V7/II",
    "A7: secondary-dominant V7/II",
    "A7: secondary-dominant V7/II",
    "Dm7: two IIm7",
    "C: tonic I",
  ],
  ["II7 that goes elsewhere", "D7 | F | C", "D7: secondary-dominant V7/V", "F: subdominant IV", "C: tonic I"],
  ["I7 a half step above", "C7 | Bm7b5 | C", "C7: tonic I7", "Bm7b5: dominant VIIm7b5", "C: tonic I"],
  [
    "a minor chord before a dominant that is not its own",
    "Gm7 | F7 | C",
    "Gm7: modal-interchange Vm7",
    "F7: subdominant IV7",
    "C: tonic I",
  ],
  ["VI half-diminished without its dominant", "Am7b5 | C", "Am7b5: none VIm7b5", "C: tonic I"],
  ["minor IV with a major seventh", "Fm(maj7) | C", "Fm(maj7): modal-interchange IVm(maj7)", "C: tonic I"],
  [
    "a major seventh is no secondary dominant",
    "Dmaj7 | G | C",
    "Dmaj7: none IImaj7",
    "G: dominant V",
    "C: tonic I",
  ],
  [
    "triads a fifth apart outside the key",
    "Bb | Eb | C",
    "Bb: modal-interchange bVII",
    "Eb: modal-interchange bIII",
    "C: tonic I",
  ],
  ["V suspended as a triad", "Gsus4 | C", "Gsus4: dominant Vsus4", "C: tonic I"],
  [
    "a diminished triad on its way up",
    "Am7 | C#dim | Dm7 | C",
    "Am7: submediant VIm7",
    "C#dim: passing-diminished #Idim",
    "Dm7: two IIm7",
    "C: tonic I",
  ],
  [
    "a diminished seventh on its way up",
    "Am7 | C#dim7 | Dm7 | C",
    "Am7: submediant VIm7",
    "C#dim7: passing-diminished #Idim7",
    "Dm7: two IIm7",
    "C: tonic I",
  ],
  [
    "VII diminished that does not go home",
    "C | Bdim7 | Em7",
    "C: tonic I",
    "Bdim7: passing-diminished VIIdim7",
    "Em7: mediant IIIm7",
  ],
  [
    "silence around",
    "N.C. | A7 | N.C. | Gm7 | C7 | N.C.",
    "N.C.: none",
    "A7: secondary-dominant V7/II",
    "N.C.: none",
    "Gm7: secondary-two Vm7",
    "C7: tonic I7",
    "N.C.: none",
  ],
  [
    "silence around diminished and half-diminished chords",
    "N.C. | Abdim7 | N.C. | Bm7b5 | N.C. | Bb7 | N.C. | Bdim7",
    "N.C.: none",
    "Abdim7: none bVIdim7",
    "N.C.: none",
    "Bm7b5: dominant VIIm7b5",
    "N.C.: none",
    "Bb7: modal-interchange bVII7",
    "N.C.: none",
    "Bdim7: none VIIdim7",
  ],
  ["II-V-I", "Dm7 | G7 | Cmaj7", "Dm7: two IIm7", "G7: dominant V7", "Cmaj7: tonic Imaj7"],
  ["triads of the key", "C | F | G", "C: tonic I", "F: subdominant IV", "G: dominant V"],
  [
    "the degrees of the key",
    "Cmaj7 | Em7 | Am7 | Fmaj7",
    "Cmaj7: tonic Imaj7",
    "Em7: mediant IIIm7",
    "Am7: submediant VIm7",
    "Fmaj7: subdominant IVmaj7",
  ],
  ["a suspended V let go", "G7sus4 | G7 | C6", "G7sus4: dominant V7sus4", "G7: dominant V7", "C6: tonic I6"],
  ["VII half-diminished", "Bm7b5 | Cmaj7", "Bm7b5: dominant VIIm7b5", "Cmaj7: tonic Imaj7"],
  [
    "a half-diminished II borrowed from the minor key",
    "Dm7b5 | G7 | C",
    "Dm7b5: two IIm7b5",
    "G7: dominant V7",
    "C: tonic I",
  ],
  [
    "V of II",
    "A7 | Dm7 | G7 | C",
    "A7: secondary-dominant V7/II",
    "Dm7: two IIm7",
    "G7: dominant V7",
    "C: tonic I",
  ],
  [
    "V of III, with its II",
    "F#m7b5 | B7 | Em7 | C",
    "F#m7b5: secondary-two IIm7b5/III",
    "B7: secondary-dominant V7/III",
    "Em7: mediant IIIm7",
    "C: tonic I",
  ],
  [
    "V of IV, with its II",
    "Gm7 | C7 | Fmaj7 | C",
    "Gm7: secondary-two IIm7/IV",
    "C7: secondary-dominant V7/IV",
    "Fmaj7: subdominant IVmaj7",
    "C: tonic I",
  ],
  [
    "V of V, with its II that is also VI of the key",
    "Am7 | D7 | G7 | C",
    "Am7: submediant VIm7",
    "D7: secondary-dominant V7/V",
    "G7: dominant V7",
    "C: tonic I",
  ],
  [
    "V of VI, with its II",
    "Bm7b5 | E7 | Am7 | C",
    "Bm7b5: secondary-two IIm7b5/VI",
    "E7: secondary-dominant V7/VI",
    "Am7: submediant VIm7",
    "C: tonic I",
  ],
  [
    "III and VI: a degree of the key stays one before its dominant",
    "Em7 | A7 | Dm7 | C",
    "Em7: mediant IIIm7",
    "A7: secondary-dominant V7/II",
    "Dm7: two IIm7",
    "C: tonic I",
  ],
  [
    "a secondary dominant whose resolution is delayed by a II on its root",
    "D7 | Dm7 | G7 | C",
    "D7: secondary-dominant V7/V",
    "Dm7: two IIm7",
    "G7: dominant V7",
    "C: tonic I",
  ],
  [
    "the same, suspended first",
    "F#7sus4 | F#7 | Bm7 | C",
    "F#7sus4: secondary-dominant V7sus4/VII",
    "F#7: secondary-dominant V7/VII",
    "Bm7: none VIIm7",
    "C: tonic I",
  ],
  [
    "a deceptive resolution",
    "E7 | Fmaj7 | C",
    "E7: secondary-dominant V7/VI",
    "Fmaj7: subdominant IVmaj7",
    "C: tonic I",
  ],
  [
    "dominants in a row",
    "E7 | A7 | D7 | G7 | C",
    "E7: secondary-dominant V7/VI",
    "A7: secondary-dominant V7/II",
    "D7: secondary-dominant V7/V",
    "G7: dominant V7",
    "C: tonic I",
  ],
  [
    "triads as secondary dominants",
    "D | G | E | Am | C",
    "D: secondary-dominant V/V",
    "G: dominant V",
    "E: secondary-dominant V/VI",
    "Am: submediant VIm",
    "C: tonic I",
  ],
  [
    "V of bVI and bIII",
    "Bb7 | Ebmaj7 | Eb7 | Abmaj7 | C",
    "Bb7: secondary-dominant V7/bIII",
    "Ebmaj7: modal-interchange bIIImaj7",
    "Eb7: secondary-dominant V7/bVI",
    "Abmaj7: modal-interchange bVImaj7",
    "C: tonic I",
  ],
  [
    "the tritone substitute of V",
    "Dm7 | Db7 | Cmaj7",
    "Dm7: two IIm7",
    "Db7: tritone-substitute subV7",
    "Cmaj7: tonic Imaj7",
  ],
  [
    "the tritone substitute with its own II",
    "Abm7 | Db7 | Cmaj7",
    "Abm7: secondary-two bVIm7",
    "Db7: tritone-substitute subV7",
    "Cmaj7: tonic Imaj7",
  ],
  [
    "substitutes of secondary dominants",
    "Eb7 | Dm7 | Ab7 | G7 | C",
    "Eb7: tritone-substitute subV7/II",
    "Dm7: two IIm7",
    "Ab7: tritone-substitute subV7/V",
    "G7: dominant V7",
    "C: tonic I",
  ],
  [
    "a substitute for V of VI",
    "Bb7 | Am7 | Gb7 | Fmaj7 | C",
    "Bb7: tritone-substitute subV7/VI",
    "Am7: submediant VIm7",
    "Gb7: tritone-substitute subV7/IV",
    "Fmaj7: subdominant IVmaj7",
    "C: tonic I",
  ],
  [
    "a bII7 that goes elsewhere is still a substitute",
    "Db7 | Fmaj7 | C",
    "Db7: tritone-substitute subV7",
    "Fmaj7: subdominant IVmaj7",
    "C: tonic I",
  ],
  [
    "the backdoor",
    "Fm7 | Bb7 | Cmaj7",
    "Fm7: secondary-two IVm7",
    "Bb7: backdoor bVII7",
    "Cmaj7: tonic Imaj7",
  ],
  [
    "a bVII7 that does not go home",
    "Bb7 | Fmaj7 | C",
    "Bb7: modal-interchange bVII7",
    "Fmaj7: subdominant IVmaj7",
    "C: tonic I",
  ],
  ["a bVI7 that does not lead to V", "Ab7 | C", "Ab7: modal-interchange bVI7", "C: tonic I"],
  ["IV7, which is no blues here", "F7 | Cmaj7", "F7: subdominant IV7", "Cmaj7: tonic Imaj7"],
  ["IV7 a half step above III", "F7 | Em7 | C", "F7: subdominant IV7", "Em7: mediant IIIm7", "C: tonic I"],
  [
    "IV7 as V of bVII",
    "F7 | Bbmaj7 | C",
    "F7: secondary-dominant V7/bVII",
    "Bbmaj7: modal-interchange bVIImaj7",
    "C: tonic I",
  ],
  ["minor IV", "Fm6 | C", "Fm6: modal-interchange IVm6", "C: tonic I"],
  [
    "minor I and V borrowed",
    "Cm7 | Ebmaj7 | Gm7 | C",
    "Cm7: modal-interchange Im7",
    "Ebmaj7: modal-interchange bIIImaj7",
    "Gm7: modal-interchange Vm7",
    "C: tonic I",
  ],
  ["the Neapolitan", "Dbmaj7 | C", "Dbmaj7: modal-interchange bIImaj7", "C: tonic I"],
  [
    "the turnaround diminished, rising",
    "C6 | C#dim7 | Dm7 | G7",
    "C6: tonic I6",
    "C#dim7: passing-diminished #Idim7",
    "Dm7: two IIm7",
    "G7: dominant V7",
  ],
  [
    "the turnaround diminished, falling",
    "Em7 | Ebdim7 | Dm7 | G7 | C",
    "Em7: mediant IIIm7",
    "Ebdim7: passing-diminished bIIIdim7",
    "Dm7: two IIm7",
    "G7: dominant V7",
    "C: tonic I",
  ],
  [
    "#IV diminished to I with its fifth in the bass",
    "F6 | F#dim7 | C/G",
    "F6: subdominant IV6",
    "F#dim7: passing-diminished #IVdim7",
    "C/G: tonic I",
  ],
  [
    "#V diminished to VI",
    "G7 | G#dim7 | Am7 | C",
    "G7: dominant V7",
    "G#dim7: passing-diminished #Vdim7",
    "Am7: submediant VIm7",
    "C: tonic I",
  ],
  [
    "a diminished chord on the root of I",
    "Cmaj7 | Cdim7 | Cmaj7 | F6",
    "Cmaj7: tonic Imaj7",
    "Cdim7: passing-diminished Idim7",
    "Cmaj7: tonic Imaj7",
    "F6: subdominant IV6",
  ],
  ["VII diminished", "Bdim7 | C", "Bdim7: dominant VIIdim7", "C: tonic I"],
  [
    "a diminished chord that fills no step",
    "Fmaj7 | Abdim7 | C",
    "Fmaj7: subdominant IVmaj7",
    "Abdim7: none bVIdim7",
    "C: tonic I",
  ],
  ["augmented V", "Gaug | C", "Gaug: dominant Vaug", "C: tonic I"],
  [
    "augmented I on its way to IV",
    "C | Caug | F",
    "C: tonic I",
    "Caug: secondary-dominant Vaug/IV",
    "F: subdominant IV",
  ],
  ["augmented I that stays", "Caug | Am7", "Caug: tonic Iaug", "Am7: submediant VIm7"],
  ["an augmented chord without a place", "Ebaug | C", "Ebaug: none bIIIaug", "C: tonic I"],
  ["a I7 that goes nowhere", "C7 | Bbmaj7", "C7: tonic I7", "Bbmaj7: modal-interchange bVIImaj7"],
  [
    "#IV half-diminished",
    "F#m7b5 | Fm6 | C",
    "F#m7b5: none #IVm7b5",
    "Fm6: modal-interchange IVm6",
    "C: tonic I",
  ],
  ["a dominant without a place", "F#7 | C", "F#7: none #IV7", "C: tonic I"],
  ["a major chord without a place", "Amaj7 | C", "Amaj7: none VImaj7", "C: tonic I"],
  [
    "sus and power chords",
    "Csus4 | G5 | C5 | Fsus2",
    "Csus4: tonic Isus4",
    "G5: dominant V5",
    "C5: tonic I5",
    "Fsus2: subdominant IVsus2",
  ],
  ["no chord", "C | N.C. | C", "C: tonic I", "N.C.: none", "C: tonic I"],
];

const IN_C_MINOR: readonly Row[] = [
  [
    "minor III and half-diminished V are none of the degrees",
    "Em7 | Cm | Gm7b5 | Cm",
    "Em7: none IIIm7",
    "Cm: tonic Im",
    "Gm7b5: none Vm7b5",
    "Cm: tonic Im",
  ],
  ["a triad as V of V", "D | G | Cm", "D: secondary-dominant V/V", "G: dominant V", "Cm: tonic Im"],
  [
    "V of II",
    "A7 | Dm7b5 | G7 | Cm",
    "A7: secondary-dominant V7/II",
    "Dm7b5: two IIm7b5",
    "G7: dominant V7",
    "Cm: tonic Im",
  ],
  ["minor II-V-I", "Dm7b5 | G7 | Cm6", "Dm7b5: two IIm7b5", "G7: dominant V7", "Cm6: tonic Im6"],
  [
    "II with a perfect fifth",
    "Dm7 | G7alt | Cm(maj7)",
    "Dm7: two IIm7",
    "G7alt: dominant V7alt",
    "Cm(maj7): tonic Im(maj7)",
  ],
  [
    "I, IV, V and the chords of the natural minor",
    "Cm7 | Fm7 | Gm7 | Abmaj7 | Ebmaj7",
    "Cm7: tonic Im7",
    "Fm7: subdominant IVm7",
    "Gm7: dominant Vm7",
    "Abmaj7: submediant bVImaj7",
    "Ebmaj7: mediant bIIImaj7",
  ],
  ["VI half-diminished", "Am7b5 | Cm6", "Am7b5: submediant VIm7b5", "Cm6: tonic Im6"],
  [
    "VI half-diminished as II of V",
    "Am7b5 | D7 | G7 | Cm",
    "Am7b5: secondary-two IIm7b5/V",
    "D7: secondary-dominant V7/V",
    "G7: dominant V7",
    "Cm: tonic Im",
  ],
  [
    "bVI7 before V is its tritone substitute",
    "Ab7 | G7 | Cm7",
    "Ab7: tritone-substitute subV7/V",
    "G7: dominant V7",
    "Cm7: tonic Im7",
  ],
  ["bVI7 elsewhere", "Ab7 | Cm7", "Ab7: modal-interchange bVI7", "Cm7: tonic Im7"],
  [
    "V of bIII, with its II",
    "Fm7 | Bb7 | Ebmaj7 | Cm",
    "Fm7: subdominant IVm7",
    "Bb7: secondary-dominant V7/bIII",
    "Ebmaj7: mediant bIIImaj7",
    "Cm: tonic Im",
  ],
  [
    "V of IV, with its II",
    "Gm7b5 | C7 | Fm7 | Cm",
    "Gm7b5: secondary-two IIm7b5/IV",
    "C7: secondary-dominant V7/IV",
    "Fm7: subdominant IVm7",
    "Cm: tonic Im",
  ],
  [
    "the minor V as II of IV",
    "Gm7 | C7 | Fm7 | Cm",
    "Gm7: secondary-two IIm7/IV",
    "C7: secondary-dominant V7/IV",
    "Fm7: subdominant IVm7",
    "Cm: tonic Im",
  ],
  ["IV7", "F7 | Cm7", "F7: subdominant IV7", "Cm7: tonic Im7"],
  ["the backdoor", "Bb7 | Cm7", "Bb7: backdoor bVII7", "Cm7: tonic Im7"],
  ["VII diminished", "Bdim7 | Cm6", "Bdim7: dominant VIIdim7", "Cm6: tonic Im6"],
  ["a major I at the end", "G7 | C", "G7: dominant V7", "C: tonic I"],
  [
    "bVII and bII",
    "Bb | Dbmaj7 | Cm",
    "Bb: modal-interchange bVII",
    "Dbmaj7: modal-interchange bIImaj7",
    "Cm: tonic Im",
  ],
  [
    "dominants without a place",
    "E7 | Cm | D7 | Cm",
    "E7: none III7",
    "Cm: tonic Im",
    "D7: none II7",
    "Cm: tonic Im",
  ],
  ["VI minor", "Am7 | Cm", "Am7: none VIm7", "Cm: tonic Im"],
];

const BLUES_IN_C: readonly Row[] = [
  [
    "a triad that is none of the three",
    "C7 | F7 | Bb",
    "C7: blues-one I7",
    "F7: blues-four IV7",
    "Bb: modal-interchange bVII",
  ],
  ["I, IV and V", "C7 | F7 | G7", "C7: blues-one I7", "F7: blues-four IV7", "G7: blues-five V7"],
  [
    "ninths and thirteenths",
    "C9 | F13 | G7(#9)",
    "C9: blues-one I9",
    "F13: blues-four IV13",
    "G7(#9): blues-five V7(#9)",
  ],
  [
    "triads and a sixth",
    "C | F | G | C6",
    "C: blues-one I",
    "F: blues-four IV",
    "G: blues-five V",
    "C6: blues-one I6",
  ],
  [
    "a major seventh on IV is none of the three",
    "C7 | Fmaj7",
    "C7: blues-one I7",
    "Fmaj7: subdominant IVmaj7",
  ],
  [
    "the diminished after IV",
    "F7 | F#dim7 | C7",
    "F7: blues-four IV7",
    "F#dim7: passing-diminished #IVdim7",
    "C7: blues-one I7",
  ],
  [
    "VI, II and V",
    "C7 | A7 | Dm7 | G7",
    "C7: blues-one I7",
    "A7: secondary-dominant V7/II",
    "Dm7: two IIm7",
    "G7: blues-five V7",
  ],
  ["II of IV", "Gm7 | C7 | F7", "Gm7: secondary-two IIm7/IV", "C7: blues-one I7", "F7: blues-four IV7"],
  ["bVI7 to V", "Ab7 | G7 | C7", "Ab7: tritone-substitute subV7/V", "G7: blues-five V7", "C7: blues-one I7"],
];

const MINOR_BLUES_IN_C: readonly Row[] = [
  ["I, IV and V", "Cm7 | Fm7 | G7", "Cm7: blues-one Im7", "Fm7: blues-four IVm7", "G7: blues-five V7"],
  [
    "bVI7 to V",
    "Ab7 | G7 | Cm6",
    "Ab7: tritone-substitute subV7/V",
    "G7: blues-five V7",
    "Cm6: blues-one Im6",
  ],
];

const TABLES: readonly (readonly [string, string, "blues" | "standard", readonly Row[]])[] = [
  ["in C major", "C", "standard", IN_C],
  ["in C minor", "Cm", "standard", IN_C_MINOR],
  ["in a C blues", "C", "blues", BLUES_IN_C],
  ["in a C minor blues", "Cm", "blues", MINOR_BLUES_IN_C],
];

describe("what chords do", () => {
  for (const [where, key, idiom, rows] of TABLES) {
    for (const [what, chart, ...expected] of rows) {
      it(`${where}: ${what}`, () => {
        expect(heard(chart, key, idiom)).toEqual(expected);
      });
    }
  }

  it("is heard over chords that are struck again, and round to the top of the form", () => {
    expect(heard("Dm7 | Dm7 | A7 | A7 | Dm7 Dm7 | G7 | C | G7")).toEqual([
      "Dm7: two IIm7",
      "Dm7: two IIm7",
      "A7: secondary-dominant V7/II",
      "A7: secondary-dominant V7/II",
      "Dm7: two IIm7",
      "Dm7: two IIm7",
      "G7: dominant V7",
      "C: tonic I",
      "G7: dominant V7",
    ]);
    expect(heard("Dm7 | G7 | C | A7")[3]).toBe("A7: secondary-dominant V7/II");
    expect(heard("C7")).toEqual(["C7: tonic I7"]);
  });

  it("is the same in keys all round the circle of fifths", () => {
    for (const [, key, idiom, rows] of TABLES) {
      for (const [what, chart, ...expected] of rows) {
        const written = parseChart(chart, { key, idiom });
        for (const tonic of ["Db", "E", "F#", "Ab", "Bb"]) {
          const moved = transposeChart(written, parseKey(key.replace("C", tonic)));
          // In keys of many sharps a raised degree would need two: it is written, and named, as a lowered one.
          const usual = (text: string) =>
            text.replace("#Idim", "bIIdim").replace("#Vdim", "bVIdim").replace("bVm", "#IVm");
          const now = chordSpans(moved).map((span) => usual(`${span.function} ${span.numeral}`.trim()));
          expect(now, `${what} in ${tonic}`).toEqual(
            expected.map((row) => usual(row.slice(row.indexOf(":") + 2))),
          );
        }
      }
    }
  });

  it("reads the degree from the letters as written: F sharp in C is a raised IV, G flat a lowered V", () => {
    expect(heard("F#dim7 | Gbmaj7 | D#dim7 | Ebdim7 | A#7 | C")).toEqual([
      expect.stringContaining("#IVdim7"),
      expect.stringContaining("bVmaj7"),
      expect.stringContaining("#IIdim7"),
      expect.stringContaining("bIIIdim7"),
      expect.stringContaining("bVII7"),
      "C: tonic I",
    ]);
    expect(heard("B#7 | Fb | E#")).toEqual([
      expect.stringContaining(" I7"),
      expect.stringContaining(" III"),
      expect.stringContaining(" IV"),
    ]);
  });
});
