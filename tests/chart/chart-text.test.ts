import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Chart, chartText, MAX_CHART_TEXT, parseChart, parseChord } from "../../src/chart/index.ts";
import { Problem } from "../../src/take/index.ts";

/** Each bar as "symbol@beat+beats". */
const plain = (text: string, key = "C") =>
  parseChart(text, { key, idiom: "standard" }).bars.map((bar) =>
    bar.chords.map(({ symbol, beat, beats }) => `${symbol}@${beat}+${beats}`).join(" "),
  );
const symbols = (text: string) =>
  parseChart(text, { key: "C", idiom: "standard" })
    .bars.map((bar) => bar.chords.map(({ symbol }) => symbol).join(" "))
    .join(" | ");
const problemOf = (text: string): Problem => {
  try {
    parseChart(text);
  } catch (error) {
    if (error instanceof Problem) return error;
    throw error;
  }
  throw new Error(`not refused: ${text}`);
};

describe("a chart as text", () => {
  it("is one line or many, with or without outer bar lines", () => {
    const four = "F7 | Bb7 | F7 | C7";
    expect(symbols("| F7 | Bb7 | F7 | C7 |")).toBe(four);
    expect(symbols("F7 | Bb7 | F7 | C7")).toBe(four);
    expect(symbols("| F7 | Bb7 |\n| F7 | C7 |")).toBe(four);
    expect(symbols("F7 | Bb7\n\n  F7 | C7\n")).toBe(four);
    expect(symbols("F7|Bb7|F7|C7")).toBe(four);
    expect(symbols("| F7 | Bb7 |\r\n| F7 | C7 |\r\n")).toBe(four);
    expect(symbols("| F7 | Bb7 |\r| F7 | C7 ||")).toBe(four);
    expect(symbols("|| F7\t| Bb7 || F7 | C7 |")).toBe(four);
  });

  it("numbers its bars from 1", () => {
    expect(parseChart("F7 | Bb7 | F7").bars.map(({ number }) => number)).toEqual([1, 2, 3]);
  });

  it("shares a bar evenly among its chords", () => {
    expect(plain("C7")).toEqual(["C7@1+4"]);
    expect(plain("Dm7 G7")).toEqual(["Dm7@1+2 G7@3+2"]);
    expect(plain("| C Am Dm G |")).toEqual(["C@1+1 Am@2+1 Dm@3+1 G@4+1"]);
    expect(plain("meter: 3/4\n| C Am Dm |")).toEqual(["C@1+1 Am@2+1 Dm@3+1"]);
    expect(plain("meter: 3/4\nDm7 G7")).toEqual(["Dm7@1+1.5 G7@2.5+1.5"]);
    expect(plain("meter: 6/8\nDm7 G7")).toEqual(["Dm7@1+3 G7@4+3"]);
  });

  it("gives a chord the beats after its colon, and the rest to the others", () => {
    expect(plain("C7:3 G7:1")).toEqual(["C7@1+3 G7@4+1"]);
    expect(plain("C7:3 G7")).toEqual(["C7@1+3 G7@4+1"]);
    expect(plain("C7 G7:1")).toEqual(["C7@1+3 G7@4+1"]);
    expect(plain("C7 A7:2 D7")).toEqual(["C7@1+1 A7@2+2 D7@4+1"]);
    expect(plain("C7:2.5 G7:1.5")).toEqual(["C7@1+2.5 G7@3.5+1.5"]);
    expect(plain("meter: 5/4\nDm7:3 G7:2")).toEqual(["Dm7@1+3 G7@4+2"]);
    expect(plain("Am:3 D7:1")).toEqual(["Am@1+3 D7@4+1"]);
  });

  it("repeats the bar before with %", () => {
    expect(symbols("C7 | % | Dm7 G7 | %")).toBe("C7 | C7 | Dm7 G7 | Dm7 G7");
    expect(plain("C7:3 G7 | %")).toEqual(["C7@1+3 G7@4+1", "C7@1+3 G7@4+1"]);
  });

  it("plays a passage between repeat signs twice, or as often as it says", () => {
    expect(symbols("|: C7 | F7 :|")).toBe("C7 | F7 | C7 | F7");
    expect(symbols("|: C7 | F7 :| G7 |")).toBe("C7 | F7 | C7 | F7 | G7");
    expect(symbols("Am7 |: C7 :|: F7 :|")).toBe("Am7 | C7 | C7 | F7 | F7");
    expect(symbols("|:3 C7 :|")).toBe("C7 | C7 | C7");
    expect(symbols("|: C7 :|3")).toBe("C7 | C7 | C7");
    expect(symbols("|:3 C7 :|3")).toBe("C7 | C7 | C7");
    expect(symbols("|:1 C7 :| F7")).toBe("C7 | F7");
    expect(symbols("|: C7 | %\n| F7 | % :|\nG7")).toBe("C7 | C7 | F7 | F7 | C7 | C7 | F7 | F7 | G7");
    expect(symbols("|:C7|F7:|")).toBe("C7 | F7 | C7 | F7");
    expect(symbols("|: C7 :||: F7 :|")).toBe("C7 | C7 | F7 | F7");
  });

  it("repeats from the start, or from the last repeat, when the opening sign is left out, as notation does", () => {
    expect(symbols("C7 | F7 :|")).toBe("C7 | F7 | C7 | F7");
    expect(symbols("|: C7 :| F7 | G7 :|")).toBe("C7 | C7 | F7 | G7 | F7 | G7");
  });

  it("knows bars without a chord", () => {
    const chart = parseChart("key: C\nN.C. | C7:2 NC:2");
    expect(chart.bars[0]!.chords).toEqual([{ chord: null, symbol: "N.C.", beat: 1, beats: 4, scale: null }]);
    expect(chart.bars[1]!.chords[1]).toMatchObject({ chord: null, symbol: "N.C.", beat: 3, beats: 2 });
  });

  it("takes a scale chosen for one chord", () => {
    const chart = parseChart("key: C\nC7{lydian b7}:3 G7(b9){Half-Whole} | F7{blues}");
    const scales = chart.bars.flatMap((bar) => bar.chords.map(({ scale }) => scale));
    expect(scales).toEqual(["Lydian b7", "half-whole", "blues"]);
  });

  it("keeps the text as written and prints the house style", () => {
    const [chord] = parseChart("C-7b5").bars[0]!.chords;
    expect([chord!.symbol, chord!.chord?.text]).toEqual(["Cm7b5", "C-7b5"]);
    expect(symbols("C7( b9, #11 ) | C6/9 | Bb7/D")).toBe("C7(b9,#11) | C69 | Bb7/D");
  });

  it("reads headings, forgiving of case and spaces", () => {
    const chart = parseChart("Name:  Slow one:  take 2 \n KEY : Bb\nMeter: 6 / 8\nIDIOM: Blues\n| Bb7 |");
    expect(chart).toMatchObject({
      name: "Slow one: take 2",
      key: { tonic: "Bb", tonicClass: 10, mode: "major" },
      meter: { beats: 6, unit: 8 },
      idiom: "blues",
    });
    expect(parseChart("name:\nkey: Cm\nCm7").name).toBeNull();
    expect(parseChart("C7")).toMatchObject({ name: null, meter: { beats: 4, unit: 4 } });
  });

  it("takes from the defaults what headings leave open", () => {
    const defaults = { name: "Set 1", key: "Eb", idiom: "blues" } as const;
    expect(parseChart("Eb7 | Ab7", defaults)).toMatchObject({
      name: "Set 1",
      key: { tonic: "Eb" },
      idiom: "blues",
    });
    expect(parseChart("name: A\nkey: Ab\nidiom: standard\nEb7 | Ab7", defaults)).toMatchObject({
      name: "A",
      key: { tonic: "Ab" },
      idiom: "standard",
    });
  });
});

describe("a chart with a mistake", () => {
  const cases: readonly (readonly [
    text: string,
    code: string,
    where: string | null,
    message: RegExp,
    todo: RegExp,
  ])[] = [
    ["F7 | Bb7\nF7 | H7", "note-names", "line 2, bar 4", /"H7" has no English note name/, /names: german/],
    ["F7 | Bb7\nF7 | Foo", "not-a-chord", "line 2, bar 4", /"Foo" is not a chord/, /capital root A to G/],
    [
      "F7 | Bb7(b9",
      "not-a-chord",
      "line 1, bar 2",
      /"Bb7\(b9" is not a chord: its brackets/,
      /Close the bracket/,
    ],
    ["F7 | )", "not-a-chord", "line 1, bar 2", /"\)" is not a chord/, /capital root/],
    ["F7 | }", "repeat-sign", "line 1, bar 2", /"\}" is no repeat sign/, /"\|:" before the passage/],
    ["| | Bb7", "empty-bar", "line 1, bar 1", /bar is empty/, /chord, % or N\.C\./],
    [
      "F7:3 Bb7:2",
      "beats-do-not-fit",
      "line 1, bar 1",
      /"F7:3 Bb7:2" does not fit a bar of 4 beats/,
      /add up to 4/,
    ],
    ["F7:3", "beats-do-not-fit", "line 1, bar 1", /"F7:3" does not fit/, /add up to 4/],
    ["F7:4 Bb7", "beats-do-not-fit", "line 1, bar 1", /does not fit/, /add up to 4/],
    ["F7:0 Bb7:4", "beats-do-not-fit", "line 1, bar 1", /does not fit/, /add up to 4/],
    ["F7: Bb7", "beats-do-not-fit", "line 1, bar 1", /"F7:" has no number of beats/, /C7:3/],
    [`| ${"C7 ".repeat(17)}`, "beats-do-not-fit", "line 1, bar 1", /more than 16 chords/, /"\|"/],
    ["% | F7", "nothing-to-repeat", "line 1, bar 1", /first bar/, /first bar's chords/],
    ["F7 | % Bb7", "nothing-to-repeat", "line 1, bar 2", /beside a chord/, /alone/],
    ["F7 | %:4", "nothing-to-repeat", "line 1, bar 2", /no beats and no scale/, /whole bar/],
    ["F7 | %{blues}", "nothing-to-repeat", "line 1, bar 2", /no beats and no scale/, /whole bar/],
    ["|: F7 | Bb7", "repeat-sign", "line 1, bar 1", /opened by "\|:" and not closed/, /":\|"/],
    ["F7 |: Bb7 |: C7 :|", "repeat-sign", "line 1, bar 3", /inside a repeat/, /Close the first/],
    ["|:2 F7 :|3", "repeat-sign", "line 1, bar 2", /opened for 2 times and closed for 3/, /once/],
    [":| F7", "repeat-sign", "line 1, bar 1", /no bars/, /between/],
    ["|: F7 :|99", "repeat-sign", "line 1, bar 2", /99 times/, /1 to 32/],
    ["|: F7 :|0", "repeat-sign", "line 1, bar 2", /0 times/, /1 to 32/],
    [
      "groove three: 120\nF7",
      "unknown-heading",
      "line 1",
      /"groove three" is not a heading/,
      /key, meter, idiom, name/,
    ],
    ["F7\nmeter: 3/4", "unknown-heading", "line 2", /after the first bar/, /above the first bar/],
    ["F7\nkey: Bb", "key-without-bars", "line 2", /No bar stands in Bb/, /above the first bar that/],
    ["F7\nkey: Bb\nkey: C\nC7", "key-without-bars", "line 2", /No bar stands in Bb/, /take it out/],
    ["F7\nkey: H\nC7", "not-a-key", "line 2", /"H" is not a key/, /letter A to G/],
    ["key: H\nF7", "not-a-key", "line 1", /"H" is not a key/, /letter A to G/],
    ["key: F lydian\nF7", "not-a-key", "line 1", /"F lydian" is not a key/, /minor/],
    ["\n\nmeter: 4/5\nF7", "not-a-meter", "line 3", /"4\/5" is not a meter/, /4\/4, 3\/4 or 6\/8/],
    ["meter: 0/4\nF7", "not-a-meter", "line 1", /not a meter/, /beats \/ unit/],
    ["meter: 33/4\nF7", "not-a-meter", "line 1", /not a meter/, /beats \/ unit/],
    ["meter: waltz\nF7", "not-a-meter", "line 1", /"waltz" is not a meter/, /beats \/ unit/],
    ["idiom: rock\nF7", "not-an-idiom", "line 1", /"rock" is not an idiom/, /blues" or "idiom: standard/],
    ["F7{superduper}", "not-a-scale", "line 1, bar 1", /"superduper" is not a scale/, /Mixolydian/],
    ["", "empty-chart", null, /no bars/, /bar lines/],
    ["key: F\n\n", "empty-chart", null, /no bars/, /bar lines/],
    ["| |", "empty-bar", "line 1, bar 1", /bar is empty/, /chord/],
    [
      "|:32 C7 | % | % | % | % | % | % | % | % | % | % | % | % | % | % | % | % :|",
      "chart-too-long",
      "line 1, bar 17",
      /more than 512 bars/,
      /one chorus/i,
    ],
    ["C7 ".repeat(20_000), "chart-too-long", null, /60000 characters/, /50000 characters and 512 bars/],
  ];
  for (const [text, code, where, message, todo] of cases) {
    it(`${JSON.stringify(text.slice(0, 40))} is told as ${code}${where === null ? "" : ` at ${where}`}`, () => {
      const problem = problemOf(text);
      expect([problem.code, problem.where]).toEqual([code, where]);
      expect(problem.message).toMatch(message);
      expect(problem.todo).toMatch(todo);
    });
  }

  it("takes charts up to the limits", () => {
    expect(
      parseChart("|:32 C7 | % | % | % | % | % | % | % | % | % | % | % | % | % | % | % :|").bars,
    ).toHaveLength(512);
    expect(parseChart(`C7${" ".repeat(MAX_CHART_TEXT - 2)}`).bars).toHaveLength(1);
    expect(parseChart(`| ${"C7 ".repeat(16)}|`).bars[0]!.chords).toHaveLength(16);
    expect(parseChart("meter: 32/32\nC7").meter).toEqual({ beats: 32, unit: 32 });
  });

  it("is refused in time that grows with its length, whatever it is made of", () => {
    for (const piece of ["(", ")", "C7(", "|:", ":|", "%", "{", "C7{", ":", "a:", " ", "\t|", "C(b9)", "-"]) {
      const text = piece.repeat(Math.floor(MAX_CHART_TEXT / piece.length));
      try {
        parseChart(text);
      } catch (error) {
        expect(error).toBeInstanceOf(Problem);
      }
    }
  });

  it("never fails in another way, whatever is typed", () => {
    const typed = fc.array(
      fc.constantFrom(
        "C7",
        "Dm7",
        "|",
        "|:",
        ":|",
        "%",
        ":3",
        "\n",
        " ",
        "{blues}",
        "key: F",
        "(",
        ")",
        "N.C.",
        "||",
        "meter: 3/4",
        "|:3 ",
        "x",
        ":",
      ),
      { maxLength: 30 },
    );
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string(),
          typed.map((parts) => parts.join("")),
        ),
        (text) => {
          try {
            parseChart(text, { key: "C", idiom: "blues" });
          } catch (error) {
            expect(error).toBeInstanceOf(Problem);
          }
        },
      ),
      { numRuns: 2000, seed: 5 },
    );
  });
});

describe("a chart printed", () => {
  it("stands four bars to a line under all its headings", () => {
    const chart = parseChart("name: Practice\nkey: Dm\nDm7 | % | Gm7 A7:1 | % | Bb7{Lydian b7} A7");
    expect(chartText(chart)).toBe(
      [
        "name: Practice",
        "key: Dm",
        "meter: 4/4",
        "idiom: standard",
        "| Dm7 | Dm7 | Gm7:3 A7:1 | Gm7:3 A7:1 |",
        "| Bb7{Lydian b7} A7 |",
        "",
      ].join("\n"),
    );
  });

  it("reads the same again, whatever chart it is", () => {
    const chord = fc.constantFrom(
      "C7",
      "F#m7b5",
      "Bbmaj9(#11)",
      "Eb6/G",
      "N.C.",
      "A7alt",
      "Gb7sus4(b9)",
      "Cm(maj7)",
      "D5",
      "Abadd9",
    );
    const scale = fc.constantFrom("", "", "", "{altered}", "{Mixolydian b9 b13}");
    const single = fc.tuple(chord, scale).map(([symbol, name]) => symbol + name);
    const bar = fc.oneof(
      fc.array(single, { minLength: 1, maxLength: 5 }).map((chords) => chords.join(" ")),
      fc
        .tuple(single, single, fc.constantFrom("1", "0.5", "2.25", "1.75"))
        .map(([a, b, beats]) => `${a}:${beats} ${b}`),
      fc
        .tuple(single, single, single, fc.constantFrom("1", "0.3"))
        .map(([a, b, c, beats]) => `${a} ${b}:${beats} ${c}`),
    );
    const text = fc
      .tuple(
        fc.constantFrom("C", "F#m", "Bb", "Ebm", "Cb"),
        fc.constantFrom("4/4", "3/4", "6/8", "12/8", "5/4"),
        fc.constantFrom("blues", "standard"),
        fc.constantFrom("", "name: A set\n"),
        fc.array(bar, { minLength: 1, maxLength: 20 }),
      )
      .map(
        ([key, meter, idiom, name, bars]) =>
          `${name}key: ${key}\nmeter: ${meter}\nidiom: ${idiom}\n|${bars.join("|")}|`,
      );
    fc.assert(
      fc.property(text, (written) => {
        const chart = parseChart(written);
        expect(parseChart(chartText(chart))).toEqual(chart);
        for (const { chords } of chart.bars) {
          expect(chords.reduce((sum, { beats }) => sum + beats, 0)).toBeCloseTo(chart.meter.beats, 9);
        }
      }),
      { numRuns: 300, seed: 3 },
    );
  });

  it("keeps its name on one line", () => {
    const chart: Chart = { ...parseChart("C7", { name: " two\nlines  here " }) };
    expect(chart.name).toBe("two lines here");
    expect(parseChart(chartText(chart))).toEqual(chart);
    expect(parseChart("C7", { name: "x".repeat(300) }).name).toHaveLength(200);
    expect(parseChart("C7", { name: "  " }).name).toBeNull();
  });

  it("differs from what was written only in how chords were spelled", () => {
    const chart = parseChart("key: C\nC-7 | CΔ");
    const again = parseChart(chartText(chart));
    expect(again.bars[0]!.chords[0]!.chord).toEqual(parseChord("Cm7"));
    expect(again.bars[1]!.chords[0]!.symbol).toBe(chart.bars[1]!.chords[0]!.symbol);
  });
});
