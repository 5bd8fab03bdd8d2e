import { describe, expect, it } from "vitest";
import { analyse } from "../../src/analyse.ts";
import { readTake } from "../../src/ingest/index.ts";
import type { Take } from "../../src/take/index.ts";
import {
  attributes,
  bar,
  document,
  endingStart,
  endingStop,
  note,
  pitchElement,
  REPEAT_END,
  REPEAT_START,
  rest,
  score,
  sound,
  words,
} from "./score-text.ts";

function read(bytes: Uint8Array): Take {
  return readTake(bytes, { name: "test.musicxml" });
}

/** "Eb4@1.5+0.5" for each note: spelling, onset and length in quarter notes. */
function brief(take: Take): string[] {
  return take.notes.map(
    ({ printed, tick, ticks }) =>
      `${printed!.spelling}@${tick / take.ticksPerQuarter}+${ticks / take.ticksPerQuarter}`,
  );
}

function codes(take: Take): string[] {
  return take.warnings.map(({ code }) => code);
}

describe("ticks", () => {
  it("are the least common multiple of all divisions, so that triplets beside sixteenths are exact", () => {
    const take = read(
      score(
        bar(1, attributes(3) + note("C4", 1) + note("D4", 1) + note("E4", 1) + note("F4", 9)),
        bar(2, attributes(4) + note("C4", 1) + note("D4", 15)),
      ),
    );
    expect(take.ticksPerQuarter).toBe(12);
    expect(take.notes.map(({ tick, ticks }) => [tick, ticks])).toEqual([
      [0, 4],
      [4, 4],
      [8, 4],
      [12, 36],
      [48, 3],
      [51, 45],
    ]);
  });

  it("are exact for fractions of a division too", () => {
    const take = read(score(bar(1, attributes(1) + note("C4", 0.5) + note("D4", 3.5))));
    expect(brief(take)).toEqual(["C4@0+0.5", "D4@0.5+3.5"]);
  });
});

describe("tuplets", () => {
  it("inside tuplets are exact: three in the time of two, in the third of five in the time of four", () => {
    // A quintuplet quarter is 4/5 of a quarter, a triplet eighth inside it 4/5 of 1/3: in fifteenths, 12 and 4.
    const inner = (tag: string) =>
      `<time-modification><actual-notes>15</actual-notes><normal-notes>8</normal-notes></time-modification><notations><tuplet type="${tag}" number="2"/></notations>`;
    const take = read(
      score(
        bar(
          1,
          attributes(15) +
            note("C4", 12) +
            note("D4", 12) +
            note("E4", 4, "", 1, inner("start")) +
            note("F4", 4, "", 1) +
            note("G4", 4, "", 1, inner("stop")) +
            note("A4", 12) +
            note("B4", 12),
        ),
      ),
    );
    expect(take.ticksPerQuarter).toBe(15);
    expect(take.notes.map(({ tick }) => tick)).toEqual([0, 12, 24, 28, 32, 36, 48]);
    expect(take.notes.reduce((sum, { ticks }) => sum + ticks, 0)).toBe(4 * 15);
    expect(take.warnings).toEqual([]);
  });
});

describe("voices and staves", () => {
  it("may part: a voice that crosses to the other staff stays one voice", () => {
    const take = read(
      score(
        bar(
          1,
          attributes(1, 4, 4, "<staves>2</staves>") +
            note("C3", 1, "", 1, "<staff>2</staff>") +
            note("G3", 1, "", 1, "<staff>2</staff>") +
            note("E4", 1, "", 1, "<staff>1</staff>") +
            note("C5", 1, "", 1, "<staff>1</staff>"),
        ),
      ),
    );
    expect(brief(take)).toEqual(["C3@0+1", "G3@1+1", "E4@2+1", "C5@3+1"]);
    expect(take.notes.map(({ printed }) => `${printed!.voice}/${printed!.staff}`)).toEqual([
      "1/2",
      "1/2",
      "1/1",
      "1/1",
    ]);
  });

  it("go back and forward, and a chord starts with its first note", () => {
    const take = read(
      score(
        bar(
          1,
          attributes(2) +
            note("C5", 4, "", 1, "<staff>1</staff>") +
            `<note><chord/>${pitchElement("E5")}<duration>4</duration><voice>1</voice><staff>1</staff></note>` +
            note("G5", 4, "", 1, "<staff>1</staff>") +
            "<backup><duration>8</duration></backup><forward><duration>2</duration></forward>" +
            note("C3", 6, "", 5, "<staff>2</staff>"),
        ),
      ),
    );
    expect(brief(take)).toEqual(["C5@0+2", "E5@0+2", "C3@1+3", "G5@2+2"]);
    expect(take.notes.map(({ printed }) => [printed!.staff, printed!.voice])).toEqual([
      [1, "1"],
      [1, "1"],
      [2, "5"],
      [1, "1"],
    ]);
    expect(take.parts).toEqual([{ id: "P1", name: "Piano", staves: 2, program: null, notes: 4 }]);
  });
});

describe("bars", () => {
  it("keep a pickup as long as it is written, and its number", () => {
    const take = read(
      score(
        bar(0, attributes(1) + note("C4", 1), ' implicit="yes"'),
        bar(1, note("D4", 4)),
        bar("X1", note("E4", 2)),
      ),
    );
    expect(take.bars).toEqual([
      { number: "0", tick: 0, ticks: 1, implicit: true, pass: 0 },
      { number: "1", tick: 1, ticks: 4, implicit: false, pass: 0 },
      { number: "X1", tick: 5, ticks: 2, implicit: false, pass: 0 },
    ]);
    expect(codes(take)).toEqual(["irregular-bar"]);
  });

  it("add up compound meters", () => {
    const take = read(
      score(
        bar(
          1,
          "<attributes><divisions>2</divisions><time><beats>3+2</beats><beat-type>8</beat-type></time></attributes>" +
            note("C4", 5),
        ),
        bar(
          2,
          "<attributes><time><beats>2</beats><beat-type>4</beat-type><beats>3</beats><beat-type>8</beat-type></time></attributes>" +
            note("C4", 7),
        ),
      ),
    );
    expect(take.meters).toEqual([
      { tick: 0, beats: 5, unit: 8 },
      { tick: 5, beats: 7, unit: 8 },
    ]);
    expect(take.warnings).toEqual([]);
  });
});

/** Order in which bars are played, by number; each bar is one whole note. */
function order(...bars: readonly string[]): string {
  const take = read(
    score(...bars.map((content, index) => bar(index + 1, (index === 0 ? attributes(1) : "") + content))),
  );
  return take.bars.map(({ number }) => number).join(" ");
}

const C = note("C4", 4);

describe("the order of playing", () => {
  // What players do with these signs is common practice [practice]; the labels are MusicXML's.
  it.each([
    ["a repeat", "1 2 2 3", [C, REPEAT_START + C + REPEAT_END, C]],
    ["a repeat without a beginning", "1 2 1 2 3", [C, C + REPEAT_END, C]],
    ["a second repeat that goes back to the first one's end", "1 1 2 2", [C + REPEAT_END, C + REPEAT_END]],
    [
      "a repeat played three times",
      "1 1 1 2",
      [`${C}<barline location="right"><repeat direction="backward" times="3"/></barline>`, C],
    ],
    [
      "first and second ending",
      "1 2 1 3 4",
      [
        REPEAT_START + C,
        endingStart("1") + C + endingStop("1", true),
        endingStart("2") + C + endingStop("2", false),
        C,
      ],
    ],
    [
      "an ending for the first two of three times",
      "1 2 1 2 1 3",
      [C, endingStart("1, 2") + C + endingStop("1, 2", true), endingStart("3") + C + endingStop("3", false)],
    ],
    ["a first ending without a second", "1 2 1 3", [C, endingStart("1") + C + endingStop("1", true), C]],
    ["D.C.", "1 2 1 2", [C, C + sound('dacapo="yes"')]],
    ["D.C. al Fine", "1 2 3 1", [C + sound('fine="yes"'), C, C + sound('dacapo="yes"')]],
    [
      "D.C. al Fine without the repeats",
      "1 1 2 1",
      [C + REPEAT_END.replace("<repeat", "<repeat") + sound('fine="yes"'), C + sound('dacapo="yes"')],
    ],
    [
      "D.S. al Coda",
      "1 2 3 4 2 5",
      [C, sound('segno="s"') + C + sound('tocoda="c"'), C, C + sound('dalsegno="s"'), sound('coda="c"') + C],
    ],
    [
      "D.C. with the last ending only",
      "1 2 1 3 1 3",
      [
        C,
        endingStart("1") + C + endingStop("1", true),
        endingStart("2") + C + endingStop("2", false) + sound('dacapo="yes"'),
      ],
    ],
    [
      "jumps that only words and signs state",
      "1 2 3 4 2 5",
      [
        C,
        `<direction><direction-type><segno/></direction-type></direction>${C}${words("To Coda")}`,
        C,
        C + words("D.S. al Coda"),
        `<direction><direction-type><coda/></direction-type></direction>${C}`,
      ],
    ],
  ] as const)("plays out %s", (_, expected, bars) => {
    expect(order(...bars)).toBe(expected);
  });

  it("counts the passes of a bar and plays what is for one pass only in that pass", () => {
    const take = read(
      score(
        bar(
          1,
          attributes(1) +
            `<note time-only="1">${pitchElement("C4")}<duration>4</duration><voice>1</voice></note>` +
            "<backup><duration>4</duration></backup>" +
            `<note time-only="2">${pitchElement("D4")}<duration>4</duration><voice>2</voice></note>` +
            REPEAT_END,
        ),
      ),
    );
    expect(brief(take)).toEqual(["C4@0+4", "D4@4+4"]);
    expect(take.bars.map(({ pass }) => pass)).toEqual([0, 1]);
  });

  it("takes up the tempo of the bar that it goes back to", () => {
    const take = read(
      score(bar(1, attributes(1) + sound('tempo="60"') + C), bar(2, sound('tempo="120"') + C + REPEAT_END)),
    );
    expect(take.tempos.map(({ tick, quartersPerMinute }) => [tick, quartersPerMinute])).toEqual([
      [0, 60],
      [4, 120],
      [8, 60],
      [12, 120],
    ]);
  });
});

const TIE_START = '<tie type="start"/>';
const TIE_STOP = '<tie type="stop"/>';

describe("ties", () => {
  it("make one note over a bar line", () => {
    const take = read(
      score(
        bar(1, attributes(1) + rest(3) + note("C4", 1, TIE_START)),
        bar(2, note("C4", 2, TIE_STOP) + rest(2)),
      ),
    );
    expect(brief(take)).toEqual(["C4@3+3"]);
  });

  it("lead into both endings: the second time the note before is still held", () => {
    const take = read(
      score(
        bar(1, attributes(1) + note("C4", 4, TIE_START)),
        bar(2, endingStart("1") + note("C4", 4, TIE_STOP) + endingStop("1", true)),
        bar(3, endingStart("2") + note("C4", 4, TIE_STOP) + endingStop("2", false)),
      ),
    );
    expect(brief(take)).toEqual(["C4@0+8", "C4@8+8"]);
  });

  it("that come from nowhere sound anew, with a warning", () => {
    const take = read(score(bar(1, attributes(1) + note("C4", 4, TIE_STOP))));
    expect(brief(take)).toEqual(["C4@0+4"]);
    expect(codes(take)).toEqual(["tie-from-nowhere"]);
  });
});

describe("ties and repeats", () => {
  it("a note held over the repeat sign goes on at the beginning of the repeat", () => {
    const take = read(
      score(
        bar(1, attributes(1) + note("C4", 4, '<tie type="stop"/>')),
        bar(2, note("E4", 2) + note("C4", 2, '<tie type="start"/>') + REPEAT_END),
      ),
    );
    // The first C has nothing before it; that of bar 2 is held through bar 1 as it is played again.
    expect(brief(take)).toEqual(["C4@0+4", "E4@4+2", "C4@6+6", "E4@12+2", "C4@14+2"]);
  });
});

describe("grace notes", () => {
  const grace = (slash: boolean) =>
    `<note><grace${slash ? ' slash="yes"' : ""}/>${pitchElement("D#4")}<voice>1</voice></note>`;

  it("with a slash come before the beat and take from the note before", () => {
    const take = read(score(bar(1, attributes(1) + note("C4", 2) + grace(true) + note("E4", 2))));
    const [c, d, e] = take.notes;
    expect(d!.printed!.grace).toBe("acciaccatura");
    expect([d!.tick, d!.ticks]).toEqual([2, 0]);
    expect(e!.onset).toBe(1);
    expect(d!.onset).toBeLessThan(1);
    expect(c!.onset + c!.duration).toBeCloseTo(d!.onset, 12);
    expect(d!.onset + d!.duration).toBeCloseTo(e!.onset, 12);
  });

  it("without a slash start on the beat and delay the note after", () => {
    const take = read(score(bar(1, attributes(1) + note("C4", 2) + grace(false) + note("E4", 2))));
    const [, d, e] = take.notes;
    expect(d!.printed!.grace).toBe("appoggiatura");
    expect(d!.onset).toBe(1);
    expect(e!.onset).toBeCloseTo(1 + d!.duration, 12);
    expect(e!.onset + e!.duration).toBeCloseTo(2, 12);
    expect(e!.tick).toBe(2);
  });

  it("at the very start take from the note after, since there is nothing before", () => {
    const take = read(score(bar(1, attributes(1) + grace(true) + note("E4", 4))));
    expect(take.notes[0]!.onset).toBe(0);
    expect(take.notes[0]!.duration).toBeGreaterThan(0);
  });
});

describe("transposing parts", () => {
  it("are read at sounding pitch, and so are key and chord symbols: a part in B flat", () => {
    const transpose = "<transpose><diatonic>-1</diatonic><chromatic>-2</chromatic></transpose>";
    const key = "<key><fifths>2</fifths><mode>major</mode></key>";
    const take = read(
      score(
        bar(
          1,
          `<attributes><divisions>1</divisions>${transpose}</attributes><attributes>${key}</attributes>` +
            "<harmony><root><root-step>D</root-step></root><kind>major-seventh</kind></harmony>" +
            note("F#4", 4),
        ),
      ),
    );
    expect(take.notes[0]).toMatchObject({ pitch: 64 });
    expect(take.notes[0]!.printed!.spelling).toBe("E4");
    expect(take.keys).toEqual([{ tick: 0, fifths: 0, mode: "major" }]);
    expect(take.chords[0]!.text).toBe("Cmaj7");
  });

  it("keep the octave of a part that sounds an octave and a sixth away", () => {
    const transpose =
      "<transpose><diatonic>-5</diatonic><chromatic>-9</chromatic><octave-change>-1</octave-change></transpose>";
    const take = read(score(bar(1, attributes(1, 4, 4, transpose) + note("C5", 4))));
    expect(take.notes[0]!.printed!.spelling).toBe("Eb3");
    expect(take.notes[0]!.pitch).toBe(51);
  });
});

describe("octave signs", () => {
  it("do not move the notes: <pitch> is what sounds, 8va only how it is printed", () => {
    // MusicXML, direction.mod: octave-shift "indicates where notes are shifted up or down from their true pitched
    // values because of printing size".
    const shift = (type: string) =>
      `<direction><direction-type><octave-shift type="${type}" size="8"/></direction-type></direction>`;
    const take = read(
      score(bar(1, attributes(1) + shift("down") + note("C6", 2) + shift("stop") + note("C5", 2))),
    );
    expect(take.notes.map(({ pitch }) => pitch)).toEqual([84, 72]);
  });
});

describe("lyrics", () => {
  it("are those of the verse that is sung in the pass", () => {
    const verses =
      '<lyric number="1"><text>first</text></lyric><lyric number="2"><text>second</text></lyric>';
    const take = read(score(bar(1, attributes(1) + note("C4", 4, "", 1, verses) + REPEAT_END)));
    expect(take.notes.map(({ printed }) => printed!.lyric)).toEqual(["first", "second"]);
  });
});

describe("choruses of a score with repeats", () => {
  it("are counted from the bars as they are played: four bars played three times are three choruses", () => {
    const four = [1, 2, 3, 4].map((number) =>
      bar(
        number,
        (number === 1 ? attributes(1) : "") +
          ["C4", "E4", "G4", "Bb4"].map((pitch) => note(pitch, 1)).join("") +
          (number === 4
            ? '<barline location="right"><repeat direction="backward" times="3"/></barline>'
            : ""),
      ),
    );
    const analysis = analyse(score(...four), "key: C\n| C7 | C7 | C7 | C7 |");
    expect(analysis.alignment.choruses).toBe(3);
    expect(
      analysis.notes.map(({ chorus, bar: at }) => `${chorus}:${at}`).filter((_, i) => i % 16 === 0),
    ).toEqual(["1:1", "2:1", "3:1"]);
  });
});

describe("printed fingering", () => {
  const fingered = (marks: string) =>
    read(
      score(
        bar(
          1,
          attributes(1) + note("C4", 4, "", 1, `<notations><technical>${marks}</technical></notations>`),
        ),
      ),
    ).notes[0]!.printed!.fingering.map(
      ({ finger, substitution, alternate }) => `${finger}${substitution ? "s" : ""}${alternate ? "a" : ""}`,
    );

  it.each([
    ["<fingering>3</fingering>", ["3"]],
    ["<fingering>2</fingering><fingering substitution='yes'>1</fingering>", ["2", "1s"]],
    ["<fingering>2-3</fingering>", ["2", "3s"]],
    ["<fingering>1</fingering><fingering alternate='yes'>2</fingering>", ["1", "2a"]],
    ["<fingering>0</fingering>", []],
  ])("%s", (marks, expected) => {
    expect(fingered(marks)).toEqual(expected);
  });
});

describe("what is left out is named", () => {
  it("cue notes and notes without pitch", () => {
    const take = read(
      score(
        bar(
          1,
          attributes(1) +
            note("C4", 2) +
            `<note><cue/>${pitchElement("D4")}<duration>1</duration><voice>1</voice></note>` +
            "<note><unpitched/><duration>1</duration><voice>1</voice></note>",
        ),
      ),
    );
    expect(brief(take)).toEqual(["C4@0+2"]);
    expect(codes(take)).toEqual(["cue-notes-left-out", "drums-left-out"]);
  });
});

describe("tempo, swing, pedal and words", () => {
  it("counts a metronome mark in its own note value: dotted quarter = 80 is 120 quarter notes", () => {
    const metronome =
      "<direction><direction-type><metronome><beat-unit>quarter</beat-unit><beat-unit-dot/><per-minute>80</per-minute></metronome></direction-type></direction>";
    const take = read(score(bar(1, attributes(1) + metronome + C)));
    expect(take.tempos[0]!.quartersPerMinute).toBe(120);
    expect(take.tempoStated).toBe(true);
  });

  it("reads swing as the score states it", () => {
    const swing =
      "<sound><swing><first>2</first><second>1</second><swing-type>eighth</swing-type></swing></sound>";
    expect(read(score(bar(1, attributes(1) + swing + C))).swing).toEqual({
      first: 2,
      second: 1,
      unit: "eighth",
    });
  });

  it("takes straight eighths as no swing", () => {
    const straight = "<sound><swing><straight/></swing></sound>";
    expect(read(score(bar(1, attributes(1) + straight + C))).swing).toBeNull();
  });

  it("places words by their offset and tells tempo words from others", () => {
    const tempo =
      '<direction><direction-type><words>Slowly</words></direction-type><offset>1</offset><sound tempo="50"/></direction>';
    const take = read(score(bar(1, attributes(1) + words("dolce") + tempo + C)));
    expect(take.texts).toEqual([
      { tick: 0, kind: "text", text: "dolce" },
      { tick: 1, kind: "tempo", text: "Slowly" },
    ]);
    expect(take.tempos[1]).toMatchObject({ tick: 1, quartersPerMinute: 50 });
  });

  it("lets notes sound until the pedal comes up", () => {
    const pedal = (type: string) =>
      `<direction><direction-type><pedal type="${type}"/></direction-type></direction>`;
    const take = read(
      score(bar(1, attributes(1) + pedal("start") + note("C4", 1) + rest(1) + pedal("stop") + rest(2))),
    );
    expect(take.notes[0]).toMatchObject({ duration: 0.5, sounding: 1 });
  });
});

describe("documents of every age and kind", () => {
  const body = `<part-list><score-part id="P1"><part-name>Piano</part-name></score-part></part-list><part id="P1">${bar(1, attributes(1) + note("C4", 4, "", 1, "<lyric><text>Frühling</text></lyric>"))}</part>`;
  const text = new TextDecoder().decode(document(body));

  it.each(["1.0", "1.1", "2.0", "3.0", "3.1", "4.0", null])("of version %s", (version) => {
    const bytes = new TextEncoder().encode(
      text.replace(' version="4.0"', version === null ? "" : ` version="${version}"`),
    );
    expect(read(bytes)).toEqual(read(document(body)));
  });

  it("timewise, with the same result as partwise", () => {
    const content = attributes(1) + C;
    const timewise = `<score-timewise><part-list><score-part id="P1"><part-name>Piano</part-name></score-part></part-list><measure number="1"><part id="P1">${content}</part></measure><measure number="2"><part id="P1">${C}</part></measure></score-timewise>`;
    expect(read(new TextEncoder().encode(timewise))).toEqual(read(score(bar(1, content), bar(2, C))));
  });

  it("UTF-16 of either order, with a byte-order mark or without", () => {
    const utf16 = (little: boolean, mark: boolean) => {
      const letters = (mark ? "\ufeff" : "") + text.replace("UTF-8", "UTF-16");
      const bytes = new Uint8Array(2 * letters.length);
      const view = new DataView(bytes.buffer);
      for (let i = 0; i < letters.length; i++) view.setUint16(2 * i, letters.charCodeAt(i), little);
      return bytes;
    };
    const plain = read(document(body));
    for (const little of [true, false]) {
      for (const mark of [true, false]) expect(read(utf16(little, mark))).toEqual(plain);
    }
    expect(plain.notes[0]!.printed!.lyric).toBe("Frühling");
  });

  it("UTF-8 with a byte-order mark", () => {
    const bytes = new TextEncoder().encode(`\ufeff${text}`);
    expect([...bytes.subarray(0, 3)]).toEqual([0xef, 0xbb, 0xbf]);
    expect(read(bytes)).toEqual(read(document(body)));
  });

  it("Latin-1, as declared or, with a warning, against the declaration", () => {
    const latin1 = (declared: string) =>
      Uint8Array.from(text.replace("UTF-8", declared), (letter) => letter.charCodeAt(0));
    expect(read(latin1("ISO-8859-1")).notes[0]!.printed!.lyric).toBe("Frühling");
    const wrong = read(latin1("UTF-8"));
    expect(wrong.notes[0]!.printed!.lyric).toBe("Frühling");
    expect(codes(wrong)).toEqual(["wrong-encoding"]);
  });

  it("with a DOCTYPE, which is neither fetched nor needed", () => {
    const doctype =
      '<?xml version="1.0"?><!DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 1.0 Partwise//EN" "http://127.0.0.1:1/partwise.dtd">';
    expect(read(document(body, doctype)).notes).toHaveLength(1);
  });
});
