import { describe, expect, it } from "vitest";
import { type Chart, chartOfTake, formChart, keyName, recogniseForm } from "../../src/chart/index.ts";
import { formLength } from "../../src/chart/period.ts";
import type { SourceBar, SourceChord, Take } from "../../src/take/index.ts";
import { emptyTake } from "../take/empty-take.ts";
import { noteAt } from "./comping-take.ts";

const TICKS = 480;

/** A notated take of 4/4 bars; chords as [bar from 0, beat from 0, text]. */
function notated(
  bars: number,
  chords: readonly (readonly [number, number, string])[],
  changes: Partial<Take> = {},
): Take {
  return emptyTake({
    format: "musicxml",
    bars: Array.from({ length: bars }, (_, bar) => sourceBar(String(bar + 1), bar * 4 * TICKS, 4 * TICKS)),
    chords: chords.map(([bar, beat, text]) => ({ tick: (bar * 4 + beat) * TICKS, text })),
    ...changes,
  });
}
const sourceBar = (number: string, tick: number, ticks: number, implicit = false): SourceBar => ({
  number,
  tick,
  ticks,
  implicit,
  pass: 0,
});
/** The chords of a chart as the source of a take would carry them, the changes only, `choruses` times. */
function played(chart: Chart, choruses: number): [number, number, string][] {
  const rows: [number, number, string][] = [];
  for (let chorus = 0; chorus < choruses; chorus++) {
    for (const { number, chords } of chart.bars) {
      for (const { symbol, beat } of chords) {
        if (rows.at(-1)?.[2] !== symbol)
          rows.push([chorus * chart.bars.length + number - 1, beat - 1, symbol]);
      }
    }
  }
  return rows;
}
const plain = (chart: Chart | null) =>
  chart?.bars
    .map((bar) =>
      bar.chords
        .map(({ symbol, beats }) => (beats === chart.meter.beats ? symbol : `${symbol}:${beats}`))
        .join(" "),
    )
    .join(" | ");

describe("the chart that a take carries", () => {
  it("is one chorus of what is played out", () => {
    for (const [form, choruses] of [
      ["blues-quick-change", 3],
      ["blues-minor", 2],
      ["aaba-dominant-bridge", 2],
      ["two-five-one", 4],
      ["blues-two-five", 2],
    ] as const) {
      const chart = formChart(form, "Eb");
      const found = chartOfTake(notated(chart.bars.length * choruses, played(chart, choruses)));
      expect(plain(found)).toBe(plain(chart));
      expect(found).toMatchObject({ key: chart.key, idiom: chart.idiom, meter: { beats: 4, unit: 4 } });
      expect(recogniseForm(found!)).toMatchObject({ form, likeness: 1, key: chart.key });
    }
  });

  it("is all the bars when nothing returns", () => {
    const chart = formChart("aaba-dominant-bridge", "F");
    expect(chartOfTake(notated(32, played(chart, 1)))?.bars).toHaveLength(32);
  });

  it("groups a vamp to four bars", () => {
    expect(plain(chartOfTake(notated(16, [[0, 0, "Dm7"]])))).toBe("Dm7 | Dm7 | Dm7 | Dm7");
    expect(plain(chartOfTake(notated(2, [[0, 0, "Dm7"]])))).toBe("Dm7 | Dm7");
  });

  it("takes what most choruses have, where one ends otherwise", () => {
    const chart = formChart("blues-basic", "F");
    const rows = played(chart, 3).filter(([bar]) => bar < 35);
    rows.push([35, 0, "C7"]);
    expect(plain(chartOfTake(notated(36, rows)))).toBe(plain(chart));
  });

  it("lets a chord sound until the next, and splits a bar where it changes", () => {
    const found = chartOfTake(
      notated(4, [
        [0, 0, "C7"],
        [1, 2, "F7"],
        [1, 3, "F#dim7"],
        [3, 0, "C/G"],
      ]),
    );
    expect(plain(found)).toBe("C7 | C7:2 F7:1 F#dim7:1 | F#dim7 | C/G");
    expect(found!.bars[1]!.chords.map(({ beat }) => beat)).toEqual([1, 3, 4]);
  });

  it("does not repeat a chord that is printed again", () => {
    expect(
      plain(
        chartOfTake(
          notated(2, [
            [0, 0, "C7"],
            [0, 2, "C7"],
            [1, 0, "C7"],
            [1, 1, "F7"],
          ]),
        ),
      ),
    ).toBe("C7 | C7:1 F7:3");
  });

  it("keeps chords on thirds of a beat exactly, in notation", () => {
    const take = notated(1, [[0, 0, "C7"]], {
      chords: [
        { tick: 0, text: "C7" },
        { tick: 640, text: "F7" },
      ],
    });
    expect(chartOfTake(take)!.bars[0]!.chords[1]).toMatchObject({ symbol: "F7" });
    expect(chartOfTake(take)!.bars[0]!.chords[1]!.beat).toBeCloseTo(1 + 640 / 480, 12);
  });

  it("starts with the bar of the first symbol, and reads N.C.", () => {
    expect(
      plain(
        chartOfTake(
          notated(4, [
            [1, 0, "C7"],
            [2, 0, "N.C."],
            [3, 0, "C7"],
          ]),
        ),
      ),
    ).toBe("C7 | N.C. | C7");
    expect(plain(chartOfTake(notated(2, [[0, 2, "C7"]])))).toBe("N.C.:2 C7:2 | C7");
  });

  it("leaves out a pickup bar, and joins a bar that is split in two", () => {
    const bars = [
      sourceBar("0", 0, TICKS, true),
      sourceBar("1", TICKS, 4 * TICKS),
      sourceBar("2", 5 * TICKS, 3 * TICKS),
      sourceBar("X1", 8 * TICKS, TICKS, true),
      sourceBar("3", 9 * TICKS, 4 * TICKS),
    ];
    const chords = [
      [TICKS, "F7"],
      [5 * TICKS, "Bb7"],
      [8 * TICKS, "B7"],
      [9 * TICKS, "C7"],
    ] as const;
    const take = notated(0, [], { bars, chords: chords.map(([tick, text]) => ({ tick, text })) });
    expect(plain(chartOfTake(take))).toBe("F7 | Bb7:3 B7:1 | C7");
  });

  it("passes over what is no chord", () => {
    expect(
      plain(
        chartOfTake(
          notated(2, [
            [0, 0, "C7"],
            [0, 2, "Intro"],
            [1, 0, "F7"],
          ]),
        ),
      ),
    ).toBe("C7 | F7");
    expect(chartOfTake(notated(2, [[0, 0, "Intro"]]))).toBeNull();
    expect(chartOfTake(notated(2, [[0, 0, "N.C."]]))).toBeNull();
    expect(chartOfTake(notated(2, []))).toBeNull();
  });

  it("goes by the main meter", () => {
    const waltz = emptyTake({
      format: "musicxml",
      bars: [0, 1, 2, 3].map((bar) => sourceBar(String(bar + 1), bar * 3 * TICKS, 3 * TICKS)),
      meters: [{ tick: 0, beats: 3, unit: 4 }],
      chords: [
        { tick: 0, text: "G" },
        { tick: 3 * TICKS, text: "D7" },
        { tick: 8 * TICKS, text: "G" },
      ],
    });
    expect(chartOfTake(waltz)).toMatchObject({ meter: { beats: 3, unit: 4 } });
    expect(plain(chartOfTake(waltz))).toBe("G | D7 | D7:2 G:1 | G");
    const sixEight = { ...waltz, meters: [{ tick: 0, beats: 6, unit: 8 }] };
    expect(plain(chartOfTake(sixEight))).toBe("G | D7 | D7:4 G:2 | G");
    const notes = [noteAt(1, 60, 0, 12, 120)];
    const mixed = {
      ...waltz,
      notes,
      meters: [
        { tick: 0, beats: 2, unit: 4 },
        { tick: 960, beats: 3, unit: 4 },
      ],
    };
    expect(chartOfTake(mixed)!.meter).toEqual({ beats: 3, unit: 4 });
  });

  it("is named after the take", () => {
    expect(chartOfTake(notated(1, [[0, 0, "C7"]], { title: "Slow set" }))!.name).toBe("Slow set");
  });

  it("takes the key signature for a witness, major or relative minor", () => {
    const keyed = (fifths: number, text: string) => {
      const rows = text.split(" | ").map((symbol, bar) => [bar, 0, symbol] as const);
      return keyName(
        chartOfTake(notated(rows.length, rows, { keys: [{ tick: 0, fifths, mode: "major" }] }))!.key,
      );
    };
    expect(keyed(0, "G | C | G | C")).toBe("C");
    expect(keyed(1, "G | C | G | C")).toBe("G");
    expect(keyed(-3, "G | Cm | G | Cm")).toBe("Cm");
    expect(keyed(-2, "Gm | Gm | Gm | D7")).toBe("Gm");
    expect(keyed(6, "Gb6 | Abm7 | Db7 | Gb6")).toBe("F#");
    // A signature that the chords speak against: a blues in F signed with one flat, or not at all.
    expect(keyed(0, "F7 | Bb7 | F7 | C7")).toBe("F");
  });

  it("has the key of each stretch under a signature of its own", () => {
    // Three flats, then three sharps: E flat major or C minor, A major or F sharp minor; II V I tells which. [practice]
    const rows = [..."Fm7 Bb7 Ebmaj7 Ebmaj7 Bm7 E7 Amaj7 Amaj7".split(" ")].map(
      (text, bar): [number, number, string] => [bar, 0, text],
    );
    const keys = [
      { tick: 0, fifths: -3, mode: "major" as const },
      { tick: 4 * 4 * TICKS, fifths: 3, mode: "major" as const },
    ];
    const twice = [
      ...rows,
      ...rows.map(([bar, beat, text]): [number, number, string] => [bar + 8, beat, text]),
    ];
    const again = keys.map((mark) => ({ ...mark, tick: mark.tick + 8 * 4 * TICKS }));
    const chart = chartOfTake(notated(16, twice, { keys: [...keys, ...again] }))!;
    expect(keyName(chart.key)).toBe("Eb");
    expect(chart.bars.map(({ key }) => key && keyName(key))).toEqual([
      ...Array(4).fill(null),
      ...Array(4).fill("A"),
    ]);
    const minor = chartOfTake(
      notated(8, [...rows.slice(0, 4), [4, 0, "G#m7b5"], [5, 0, "C#7"], [6, 0, "F#m7"]], { keys }),
    )!;
    expect(minor.bars.map(({ key }) => key && keyName(key)).slice(3)).toEqual([
      null,
      "F#m",
      "F#m",
      "F#m",
      "F#m",
    ]);
  });

  describe("in MIDI text", () => {
    const midi = (chords: readonly SourceChord[], changes: Partial<Take> = {}) =>
      emptyTake({ chords, notes: [noteAt(1, 60, 0, 16, 120)], ...changes });

    it("goes by the meter map, and snaps to half beats", () => {
      const take = midi(
        [
          [0, "C7"],
          [1925, "F7"],
          [2875, "G7"],
          [3839, "C7"],
        ].map(([tick, text]) => ({ tick: Number(tick), text: String(text) })),
      );
      expect(plain(chartOfTake(take))).toBe("C7 | F7:2 G7:2 | C7 | C7 | C7 | C7 | C7 | C7");
    });

    it("moves the bar lines when the chords say so", () => {
      const rows = ["C7", "F7", "C7", "G7", "C7", "F7", "C7", "G7"].map((text, bar) => ({
        tick: 480 + bar * 1920,
        text,
      }));
      expect(plain(chartOfTake(midi(rows)))).toBe("C7 | F7 | C7 | G7");
    });

    it("goes on over a change of meter", () => {
      const meters = [
        { tick: 0, beats: 4, unit: 4 },
        { tick: 3840, beats: 3, unit: 4 },
      ];
      const rows = [0, 1920, 3840, 5280, 6720].map((tick, i) => ({
        tick,
        text: ["C", "F", "G", "Am", "C"][i]!,
      }));
      const notes = [noteAt(1, 60, 0, 3, 120)];
      expect(plain(chartOfTake(midi(rows, { meters, notes })))).toBe("C | F | G | Am | C");
    });
  });
});

describe("the length of a form", () => {
  const bars = (text: string) => text.split("");
  it("is the shortest that returns", () => {
    expect(formLength(bars("abcdabcd"))).toBe(4);
    expect(formLength(bars("abcdeabcde"))).toBe(5);
    expect(formLength(bars("aabaaaba"))).toBe(4);
    expect(formLength(bars("aabbccddaabbccdd"))).toBe(8);
  });
  it("has to be heard twice", () => {
    expect(formLength(bars("abcdabc"))).toBe(7);
    expect(formLength(bars("abcdefghabcdefgh"))).toBe(8);
    expect(formLength(bars("abcdefgh"))).toBe(8);
    expect(formLength(bars("a"))).toBe(1);
  });
  it("may come a little short at the end, or differ in a bar of ten", () => {
    expect(formLength(bars("abcdeabcdeabc"))).toBe(5);
    expect(formLength(bars("abcdefghijklabcdefghijkx"))).toBe(12);
    expect(formLength(bars("abcdefghijklabcdefghixyz"))).toBe(24);
  });
  it("of a vamp is four bars", () => {
    expect(formLength(bars("aaaaaaaa"))).toBe(4);
    expect(formLength(bars("abababab"))).toBe(4);
    expect(formLength(bars("abcabcabc"))).toBe(6);
    expect(formLength(bars("aaa"))).toBe(3);
  });
});
