import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { chartOfTake, chartText } from "../../src/chart/index.ts";
import { readTake } from "../../src/ingest/index.ts";
import type { Note, Take } from "../../src/take/index.ts";
import { ascii, END_OF_TRACK, hex, metaEvent, midiFile, trackChunk } from "./midi-bytes.ts";

function read(bytes: Uint8Array, pattern: number | null = null): Take {
  return readTake(bytes, { name: "test.mid", pattern });
}

function brief(notes: readonly Note[]): string[] {
  return notes.map(({ tick, pitch, ticks }) => `${tick} ${pitch} ${ticks}`);
}

function codes(take: Take): string[] {
  return take.warnings.map(({ code }) => code);
}

describe("the example of the Standard MIDI File specification", () => {
  // Standard MIDI Files 1.0 (MIDI Manufacturers Association, RP-001), the worked example of the format 0 and the
  // format 1 file in its appendix "Program Fragments and Example MIDI Files": the same four notes twice [memory; the
  // chunk lengths that the bytes state agree].
  const format0 = hex(`
    4D 54 68 64 00 00 00 06 00 00 00 01 00 60
    4D 54 72 6B 00 00 00 3B
    00 FF 58 04 04 02 18 08  00 FF 51 03 07 A1 20
    00 C0 05  00 C1 2E  00 C2 46
    00 92 30 60  00 3C 60  60 91 43 40  60 90 4C 20
    81 40 82 30 40  00 3C 40  00 81 43 40  00 80 4C 40
    00 FF 2F 00`);
  const format1 = hex(`
    4D 54 68 64 00 00 00 06 00 01 00 04 00 60
    4D 54 72 6B 00 00 00 14  00 FF 58 04 04 02 18 08  00 FF 51 03 07 A1 20  83 00 FF 2F 00
    4D 54 72 6B 00 00 00 10  00 C0 05  81 40 90 4C 20  81 40 4C 00  00 FF 2F 00
    4D 54 72 6B 00 00 00 0F  00 C1 2E  60 91 43 40  82 20 43 00  00 FF 2F 00
    4D 54 72 6B 00 00 00 15  00 C2 46  00 92 30 60  00 3C 60  83 00 30 00  00 3C 00  00 FF 2F 00`);

  it.each([
    ["format 0", format0, ["t1c1", "t1c2", "t1c3"]],
    ["format 1", format1, ["t2", "t3", "t4"]],
  ] as const)("%s holds its four notes, 4/4, 120 quarters a minute and three programs", (_, bytes, parts) => {
    const take = read(bytes);
    expect(take.ticksPerQuarter).toBe(96);
    expect(brief(take.notes)).toEqual(["0 48 384", "0 60 384", "96 67 288", "192 76 192"]);
    expect(take.notes.map((note) => note.velocity)).toEqual([96, 96, 64, 32]);
    expect(take.notes.map((note) => note.onset)).toEqual([0, 0, 0.5, 1]);
    expect(take.tempos).toEqual([{ tick: 0, seconds: 0, quartersPerMinute: 120 }]);
    expect(take.tempoStated).toBe(true);
    expect(take.meters).toEqual([{ tick: 0, beats: 4, unit: 4 }]);
    expect(take.parts.map(({ id }) => id)).toEqual(parts);
    expect(take.parts.map(({ program }) => program)).toEqual([5, 46, 70]);
    expect(take.warnings).toEqual([]);
  });
});

describe("the same key struck again before it is released", () => {
  it("ends the first note at the first note-off", () => {
    const take = read(
      midiFile(0, 96, trackChunk([0, 0x90, 60, 80], [10, 60, 70], [10, 60, 0], [10, 60, 0], END_OF_TRACK)),
    );
    expect(brief(take.notes)).toEqual(["0 60 20", "10 60 20"]);
    expect(take.warnings).toEqual([]);
  });

  it("ends the note before when a note-off is missing, and says so", () => {
    const take = read(
      midiFile(0, 96, trackChunk([0, 0x90, 60, 80], [40, 60, 70], [10, 60, 0], END_OF_TRACK)),
    );
    expect(brief(take.notes)).toEqual(["0 60 40", "40 60 10"]);
    expect(codes(take)).toEqual(["hanging-note"]);
  });
});

describe("notes without a proper end", () => {
  it("hold a hanging note to the end of the track", () => {
    const take = read(midiFile(0, 96, trackChunk([0, 0x90, 60, 80], [96, 0xff, 0x2f, 0])));
    expect(brief(take.notes)).toEqual(["0 60 96"]);
    expect(codes(take)).toEqual(["hanging-note"]);
  });

  it("are ended by all notes off", () => {
    const take = read(
      midiFile(0, 96, trackChunk([0, 0x90, 60, 80], [48, 0xb0, 123, 0], [48, 0xff, 0x2f, 0])),
    );
    expect(brief(take.notes)).toEqual(["0 60 48"]);
  });

  it("are given one tick when they have no length", () => {
    const take = read(midiFile(0, 96, trackChunk([0, 0x90, 60, 80], [0, 60, 0], END_OF_TRACK)));
    expect(brief(take.notes)).toEqual(["0 60 1"]);
    expect(codes(take)).toEqual(["note-without-length"]);
  });
});

describe("tempo", () => {
  it("is 120 until another is set, and each mark knows its second", () => {
    const slow = metaEvent(0x51, [0x0f, 0x42, 0x40], 96);
    const take = read(midiFile(0, 96, trackChunk(slow, [0, 0x90, 60, 80], [96, 60, 0], END_OF_TRACK)));
    expect(take.tempos).toEqual([
      { tick: 0, seconds: 0, quartersPerMinute: 120 },
      { tick: 96, seconds: 0.5, quartersPerMinute: 60 },
    ]);
    expect(take.notes[0]).toMatchObject({ onset: 0.5, duration: 1 });
  });

  it("is kept in seconds where the file counts SMPTE frames: 25 frames of 40 ticks are one second", () => {
    const take = read(midiFile(0, -25 * 256 + 40, trackChunk([0, 0x90, 60, 80], [100, 60, 0], END_OF_TRACK)));
    expect(take.notes[0]!.duration).toBeCloseTo(0.1, 12);
    expect(take.tempoStated).toBe(false);
    expect(codes(take)).toContain("smpte-time");
  });

  it("counts 29 drop-frame as 30/1.001 frames a second", () => {
    const take = read(
      midiFile(0, -29 * 256 + 100, trackChunk([0, 0x90, 60, 80], [100, 60, 0], END_OF_TRACK)),
    );
    expect(take.notes[0]!.duration).toBeCloseTo(1.001 / 30, 12);
  });

  it("cannot be told when a quarter note has 0 ticks", () => {
    expect(() => read(midiFile(0, 0, trackChunk([0, 0x90, 60, 80], [9, 60, 0], END_OF_TRACK)))).toThrow(
      expect.objectContaining({ code: "bad-division" }),
    );
  });
});

describe("time and key signatures", () => {
  const note = [
    [0, 0x90, 60, 80],
    [96, 60, 0],
  ];

  it("hold from their tick on; the key's second byte is its mode", () => {
    // SMF 1.0: FF 58 nn dd cc bb (dd a power of two), FF 59 sf mi (sf -7 to 7, mi 1 for minor).
    const take = read(
      midiFile(
        1,
        96,
        trackChunk(
          metaEvent(0x58, [6, 3, 36, 8]),
          metaEvent(0x59, [0xfd, 1]),
          metaEvent(0x58, [3, 2, 24, 8], 96),
          metaEvent(0x59, [2, 0]),
          END_OF_TRACK,
        ),
        trackChunk(...note, END_OF_TRACK),
      ),
    );
    expect(take.meters).toEqual([
      { tick: 0, beats: 6, unit: 8 },
      { tick: 96, beats: 3, unit: 4 },
    ]);
    expect(take.keys).toEqual([
      { tick: 0, fifths: -3, mode: "minor" },
      { tick: 96, fifths: 2, mode: "major" },
    ]);
  });

  it("that cannot be are left out, each kind with a warning", () => {
    const take = read(
      midiFile(
        0,
        96,
        trackChunk(
          metaEvent(0x58, [0, 2, 24, 8]),
          metaEvent(0x58, [4, 200, 24, 8]),
          metaEvent(0x59, [9, 0]),
          metaEvent(0x51, [0, 0, 0]),
          ...note,
          END_OF_TRACK,
        ),
      ),
    );
    expect(take.meters).toEqual([{ tick: 0, beats: 4, unit: 4 }]);
    expect(take.keys).toEqual([]);
    expect(codes(take)).toEqual([
      "impossible-time-signature",
      "impossible-key-signature",
      "impossible-tempo",
    ]);
  });
});

describe("the sustain pedal", () => {
  it("lengthens the sound of a note but not its key press", () => {
    const take = read(
      midiFile(
        0,
        96,
        trackChunk([0, 0xb0, 64, 127], [0, 0x90, 60, 80], [48, 60, 0], [48, 0xb0, 64, 0], END_OF_TRACK),
      ),
    );
    expect(take.notes[0]).toMatchObject({ duration: 0.25, sounding: 0.5 });
    expect(take.pedal).toEqual([
      { seconds: 0, down: true },
      { seconds: 0.5, down: false },
    ]);
  });

  it("holds a note no longer than until its key is struck again", () => {
    const take = read(
      midiFile(
        0,
        96,
        trackChunk(
          [0, 0xb0, 64, 127],
          [0, 0x90, 60, 80],
          [24, 60, 0],
          [24, 60, 80],
          [24, 60, 0],
          [120, 0xb0, 64, 0],
          END_OF_TRACK,
        ),
      ),
    );
    expect(take.notes.map((note) => note.sounding)).toEqual([0.25, 0.75]);
  });

  it("is down from 64 on", () => {
    const half = (value: number) =>
      read(
        midiFile(
          0,
          96,
          trackChunk([0, 0xb0, 64, value], [0, 0x90, 60, 80], [48, 60, 0], [48, 0xb0, 64, 0], END_OF_TRACK),
        ),
      );
    expect(half(63).pedal).toEqual([]);
    expect(half(64).pedal).toHaveLength(2);
  });
});

describe("channels and tracks", () => {
  const piano = [
    [0, 0x90, 60, 80],
    [10, 60, 0],
  ];

  it("leaves the drum channel out and says how many notes that were", () => {
    const take = read(midiFile(0, 96, trackChunk(...piano, [0, 0x99, 36, 80], [5, 36, 0], END_OF_TRACK)));
    expect(take.notes).toHaveLength(1);
    expect(take.warnings).toEqual([
      {
        code: "drums-left-out",
        message: "1 note of the drum channel was left out.",
        where: "track 1, channel 10",
      },
    ]);
  });

  it("refuses a file of drums only", () => {
    expect(() => read(midiFile(0, 96, trackChunk([0, 0x99, 36, 80], [5, 36, 0], END_OF_TRACK)))).toThrow(
      expect.objectContaining({ code: "only-drums" }),
    );
  });

  it("names parts by their tracks, and the channel when a track has several", () => {
    const name = metaEvent(0x03, ascii("Two hands"));
    const take = read(
      midiFile(1, 96, trackChunk(name, ...piano, [0, 0x91, 48, 80], [9, 48, 0], END_OF_TRACK)),
    );
    expect(take.parts.map(({ id, name: part, notes }) => [id, part, notes])).toEqual([
      ["t1c1", "Two hands, channel 1", 1],
      ["t1c2", "Two hands, channel 2", 1],
    ]);
  });

  it("does not mind tracks of zero length", () => {
    expect(read(midiFile(1, 96, trackChunk(), trackChunk(...piano, END_OF_TRACK))).notes).toHaveLength(1);
  });

  it("passes over System Exclusive messages, also with running status after them", () => {
    const take = read(
      midiFile(
        0,
        96,
        trackChunk([0, 0x90, 60, 80], [5, 0xf0, 3, 0x7e, 0x09, 0xf7], [5, 60, 0], END_OF_TRACK),
      ),
    );
    expect(brief(take.notes)).toEqual(["0 60 10"]);
  });

  it("passes over System Exclusive messages that go on in packets", () => {
    // SMF 1.0: F0 <length> <bytes>, then F7 <length> <bytes> for each further packet; F7 alone may carry any bytes.
    const packets = [
      [0, 0xf0, 2, 0x43, 0x12],
      [4, 0xf7, 2, 0x43, 0xf7],
      [1, 0xf7, 1, 0xf8],
    ];
    const take = read(midiFile(0, 96, trackChunk(...packets, [0, 0x90, 60, 80], [5, 60, 0], END_OF_TRACK)));
    expect(brief(take.notes)).toEqual(["5 60 5"]);
    expect(take.warnings).toEqual([]);
  });

  it("puts the notes of all tracks into one order: by time, then pitch", () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.array(fc.record({ gap: fc.nat({ max: 2 }), pitch: fc.integer({ min: 50, max: 60 }) }), {
            maxLength: 80,
          }),
          { minLength: 1, maxLength: 5 },
        ),
        (tracks) => {
          const chunks = tracks.map((strokes) =>
            trackChunk(
              ...strokes.flatMap(({ gap, pitch }) => [
                [gap, 0x90, pitch, 80],
                [0, 0x90, pitch, 0],
              ]),
              END_OF_TRACK,
            ),
          );
          const struck = tracks.flatMap((strokes) => {
            let tick = 0;
            return strokes.map(({ gap, pitch }) => {
              tick += gap;
              return [tick, pitch] as const;
            });
          });
          fc.pre(struck.length > 0);
          const { notes } = read(midiFile(1, 96, ...chunks));
          struck.sort((a, b) => a[0] - b[0] || a[1] - b[1]);
          expect(notes.map(({ tick, pitch }) => [tick, pitch])).toEqual(struck);
        },
      ),
      { numRuns: 100, seed: 3 },
    );
  });

  it("reads a format 2 file as patterns to choose from", () => {
    const other = trackChunk([0, 0x90, 72, 80], [10, 72, 0], END_OF_TRACK);
    const file = midiFile(2, 96, trackChunk(...piano, END_OF_TRACK), other);
    expect(read(file).notes.map(({ pitch }) => pitch)).toEqual([60]);
    expect(codes(read(file))).toEqual(["pattern-chosen"]);
    expect(read(file, 2).notes.map(({ pitch }) => pitch)).toEqual([72]);
    expect(() => read(file, 3)).toThrow(expect.objectContaining({ code: "no-such-pattern" }));
  });
});

describe("texts", () => {
  const note = [
    [0, 0x90, 60, 80],
    [96, 60, 0],
  ];

  it("are UTF-8 when they are, else Latin-1", () => {
    const utf8 = metaEvent(0x05, [...new TextEncoder().encode("Glück")]);
    const latin1 = metaEvent(0x05, [0x52, 0xea, 0x76, 0x65]);
    const take = read(midiFile(0, 96, trackChunk(utf8, latin1, ...note, END_OF_TRACK)));
    expect(take.texts.map(({ text }) => text)).toEqual(["Glück", "Rêve"]);
  });

  it("without end are cut, with a sign that they were", () => {
    const long = [0, 0xff, 0x01, 0x82, 0xb8, 0x40, ...new Array<number>(40_000).fill(0x61)];
    const [text] = read(midiFile(0, 96, trackChunk(long, ...note, END_OF_TRACK))).texts;
    expect(text!.text).toMatch(/^a{2000}…$/);
  });

  it("are kept with their kind: text, lyric, marker and cue, a copyright and the sequence's name", () => {
    // SMF 1.0, meta events FF 01 to FF 07.
    const kinds = [
      [0x01, "piano as played"],
      [0x02, "all free"],
      [0x03, "Evening"],
      [0x05, "la"],
      [0x06, "Chorus 1"],
      [0x07, "lights"],
    ] as const;
    const texts = kinds.map(([type, text]) => metaEvent(type, ascii(text), 12));
    const take = read(midiFile(0, 96, trackChunk(...texts, ...note, END_OF_TRACK)));
    expect(take.title).toBe("Evening");
    expect(take.texts).toEqual([
      { tick: 12, kind: "text", text: "piano as played" },
      { tick: 24, kind: "copyright", text: "all free" },
      { tick: 48, kind: "lyric", text: "la" },
      { tick: 60, kind: "marker", text: "Chorus 1" },
      { tick: 72, kind: "cue", text: "lights" },
    ]);
  });

  it.each([
    ["texts", 0x01],
    ["lyrics", 0x05],
    ["markers", 0x06],
    ["cues", 0x07],
  ])("that are chord names are offered as a chart, be they %s", (_, type) => {
    const bar = 4 * 96;
    const names = ["F7", "Bb7", "F7", "C7"].map((name, i) => [
      ...(i === 0 ? [0] : [0x80 | (bar >> 7), bar & 0x7f]),
      ...metaEvent(type, ascii(name)).slice(1),
    ]);
    const song = [
      [0, 0x90, 65, 80],
      [0x8c, 0x00, 65, 0],
    ];
    const take = read(midiFile(1, 96, trackChunk(...names, END_OF_TRACK), trackChunk(...song, END_OF_TRACK)));
    expect(chartText(chartOfTake(take)!)).toMatch(/F7 \| Bb7 \| F7 \| C7/);
  });

  it("that are chord names are offered as chords", () => {
    const names = ["F7", "Bb7", "F7", "C7(b9)"].map((name) => metaEvent(0x01, ascii(name), 48));
    const take = read(midiFile(1, 96, trackChunk(...names, END_OF_TRACK), trackChunk(...note, END_OF_TRACK)));
    expect(take.chords).toEqual([
      { tick: 48, text: "F7" },
      { tick: 96, text: "Bb7" },
      { tick: 144, text: "F7" },
      { tick: 192, text: "C7(b9)" },
    ]);
  });

  it.each([
    ["words of a song", ["A", "long", "Am", "I", "there"]],
    ["rehearsal marks", ["A", "A", "B", "A"]],
    ["a single letter", ["C"]],
  ])("that are %s are no chords", (_, words) => {
    const texts = words.map((word) => metaEvent(0x06, ascii(word), 24));
    expect(read(midiFile(0, 96, trackChunk(...texts, ...note, END_OF_TRACK))).chords).toEqual([]);
  });

  it("of a Karaoke file are a title and syllables", () => {
    const texts = ["@KMIDI KARAOKE FILE", "@TSlow Train", "/Slow", "ly", "\\on"].map((text) =>
      metaEvent(0x01, ascii(text)),
    );
    const take = read(midiFile(0, 96, trackChunk(...texts, ...note, END_OF_TRACK)));
    expect(take.title).toBe("Slow Train");
    expect(take.texts.filter(({ kind }) => kind === "lyric").map(({ text }) => text)).toEqual([
      "Slow",
      "ly",
      "on",
    ]);
  });
});

describe("files that are not quite in order", () => {
  const track = trackChunk([0, 0x90, 60, 80], [10, 60, 0], END_OF_TRACK);

  it("are read up to the break when they are cut off inside a track", () => {
    const whole = midiFile(
      0,
      96,
      trackChunk([0, 0x90, 60, 80], [10, 60, 0], [0, 62, 80], [10, 62, 0], END_OF_TRACK),
    );
    const take = read(whole.subarray(0, whole.length - 6));
    expect(brief(take.notes)).toEqual(["0 60 10", "10 62 1"]);
    expect(codes(take)).toEqual(["truncated-file", "broken-track", "hanging-note", "note-without-length"]);
  });

  it("are read when chunks that nobody knows stand between the tracks", () => {
    const alien = [...ascii("XFIH"), 0, 0, 0, 2, 1, 2];
    const take = read(Uint8Array.from([...midiFile(1, 96), ...alien, ...track]));
    expect(take.notes).toHaveLength(1);
    expect(codes(take)).toEqual(["alien-chunk", "track-count"]);
  });

  it("are read when a meta event has a wrong length", () => {
    const take = read(
      midiFile(0, 96, trackChunk(metaEvent(0x59, [0, 0, 0]), [0, 0x90, 60, 80], [9, 60, 0], END_OF_TRACK)),
    );
    expect(take.notes).toHaveLength(1);
    expect(codes(take)).toEqual(["malformed-meta"]);
  });

  it("are read behind a RIFF header", () => {
    const riff = [...ascii("RIFF"), 0, 0, 0, 0, ...ascii("RMIDdata"), 0, 0, 0, 0];
    expect(read(Uint8Array.from([...riff, ...midiFile(0, 96, track)])).notes).toHaveLength(1);
  });

  it("are read when a track states a wrong length", () => {
    const wrong = [...track];
    wrong[7] = wrong[7]! + 6;
    const take = read(midiFile(1, 96, wrong, track));
    expect(take.notes).toHaveLength(2);
    expect(codes(take)).toEqual(["track-length"]);
  });
});
