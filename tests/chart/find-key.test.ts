import { describe, expect, it } from "vitest";
import { chartText, FORMS, formChart, keyName, parseChart } from "../../src/chart/index.ts";

const found = (text: string) => {
  const { key, idiom } = parseChart(text);
  return `${keyName(key)} ${idiom}`;
};
/** The bars of a chart without its headings. */
const bare = (text: string) =>
  text
    .split("\n")
    .filter((line) => line.startsWith("|"))
    .join("\n");

describe("the key and idiom of a chart that does not say them", () => {
  it("are those of every built-in form, in keys of sharps and flats", () => {
    for (const form of FORMS) {
      for (const tonic of ["Db", "E", "F", "A"]) {
        const chart = formChart(form.id, tonic);
        expect(found(bare(chartText(chart))), `${form.id} in ${tonic}`).toBe(
          `${keyName(chart.key)} ${chart.idiom}`,
        );
      }
    }
  });

  // Keys of traditional tunes as they are usually printed with these chords. [practice]
  const TUNES: readonly (readonly [what: string, chords: string, expected: string])[] = [
    ["a spiritual on three chords", "C | C | C | G7 | C | C7 | F | Fm | C | G7 | C | C", "C standard"],
    [
      "a hymn with its VI",
      "G | G7 | C | G | G | Em | D | D7 | G | G7 | C | G | Em | D7 | G | G",
      "G standard",
    ],
    ["a minor ballad over its natural VII", "Am | G | Am | E7 | Am | G | Am E7 | Am", "Am standard"],
    [
      "a minor song with major III and IV",
      "Am | C | D | F | Am | C | E7 | E7 | Am | C | D | F | Am | E7 | Am | Am",
      "Am standard",
    ],
    ["a waltz", "meter: 3/4\nF | F | C7 | C7 | C7 | C7 | F | F", "F standard"],
    ["a song that starts on II", "Gm7 | C7 | Fmaj7 | Dm7 | Gm7 | C7 | Fmaj7 | Fmaj7", "F standard"],
    [
      "a song in minor that passes its relative major",
      "Cm7 | F7 | Bbmaj7 | Ebmaj7 | Am7b5 | D7 | Gm6 | Gm6",
      "Gm standard",
    ],
    [
      "a jazz blues",
      "F7 | Bb7 | F7 | Cm7 F7 | Bb7 | Bdim7 | F7 | Am7b5 D7 | Gm7 | C7 | F7 D7 | Gm7 C7",
      "F blues",
    ],
    ["a blues with plain triads", "E | E | E | E7 | A | A | E | E | B7 | A | E | B7", "E blues"],
    ["a minor blues in triads", "Dm | Dm | Dm | Dm | Gm | Gm | Dm | Dm | A7 | A7 | Dm | Dm", "Dm blues"],
    [
      "twelve bars over major sevenths",
      "Cmaj7 | F7 | Cmaj7 | C7 | F7 | F7 | Cmaj7 | A7 | Dm7 | G7 | C6 | G7",
      "C standard",
    ],
    [
      "twelve bars that do not return to I",
      "Cm | Cm | Cm | Cm | Fm | Fm | Gm | Gm | G7 | Fm | Cm | Cm",
      "Cm standard",
    ],
    ["a Dorian vamp", "Dm7 | G7", "Dm standard"],
    ["a vamp on a dominant seventh", "C7 | C7 | C9 | C7", "C blues"],
    ["a minor vamp", "Ebm7", "Ebm standard"],
    ["one triad", "C", "C standard"],
    ["two dominants, I and IV", "C7 | F7", "C blues"],
    ["a turnaround", "Cmaj7 A7 | Dm7 G7", "C standard"],
    ["a minor turnaround", "Cm6 | Am7b5 | Dm7b5 | G7b9", "Cm standard"],
    ["a II-V-I that goes on to its IV", "Dm7 | G7 | C | F", "C standard"],
    ["a II-V-I before the VI and the II", "Dm7 | G7 | C | C | Am | Dm", "C standard"],
    ["IV-I, then V7-I", "F | C | G7 | C", "C standard"],
    ["the minor IV on the way to V7-I", "F | Fm | G7 | C", "C standard"],
    ["a dominant and its tonic in turn", "C7 | F | C7 | F", "F standard"],
    ["a V7 that leads round to the top", "C | Am | Dm | G7", "C standard"],
    ["silence, with a single chord", "N.C. | C7 | N.C. | C7", "C blues"],
    ["silence", "N.C. | N.C.", "C standard"],
  ];
  it.each(TUNES)("%s", (_what, chords, expected) => {
    expect(found(chords)).toBe(expected);
  });

  it("keep what is given and find the rest", () => {
    expect(parseChart("C7 | F7", { key: "F" })).toMatchObject({ key: { tonic: "F" }, idiom: "standard" });
    expect(parseChart("Am7 | D7", { idiom: "blues" })).toMatchObject({ idiom: "blues" });
    expect(parseChart("idiom: standard\nC7 | F7").idiom).toBe("standard");
  });

  it("spell the tonic as the chart does", () => {
    expect(found("F#maj7 | B6 | C#7 | F#6")).toBe("F# standard");
    expect(found("Gbmaj7 | Cb6 | Db7 | Gb6")).toBe("Gb standard");
  });
});
