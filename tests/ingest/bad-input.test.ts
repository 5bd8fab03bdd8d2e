/** Files that are wrong, broken or meant to harm: each ends in a Problem that says what, where and what to do. */
import { zipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { readTake } from "../../src/ingest/index.ts";
import { LIMITS } from "../../src/ingest/limits.ts";
import { Strikes } from "../../src/ingest/midi/strikes.ts";
import { walkTrack } from "../../src/ingest/midi/walk-track.ts";
import { collectWarnings } from "../../src/ingest/warning-collector.ts";
import { Problem, type Take } from "../../src/take/index.ts";
import { CONTAINER, REFUSED, SCORE } from "./harmful-files.ts";
import { END_OF_TRACK, midiFile, trackChunk } from "./midi-bytes.ts";

const encoder = new TextEncoder();

function problemOf(bytes: Uint8Array): Problem {
  try {
    readTake(bytes, { name: "file" });
  } catch (error) {
    expect(error).toBeInstanceOf(Problem);
    return error as Problem;
  }
  throw new Error("the file was read");
}

/** A take or a Problem; any other error fails the test. */
function ending(bytes: Uint8Array): Take | Problem {
  try {
    return readTake(bytes, { name: "file" });
  } catch (error) {
    if (!(error instanceof Problem)) throw error;
    return error;
  }
}

describe("a file that cannot be read", () => {
  it.each(REFUSED)("%s: %s", (_, code, file) => {
    const problem = problemOf(file());
    expect(problem.code).toBe(code);
    expect(problem.message).not.toBe("");
    expect(problem.message.length).toBeLessThan(400);
    expect(problem.todo).toMatch(/^[A-Z].*\.$/);
  });

  it("says in which line an XML file is broken", () => {
    expect(problemOf(encoder.encode("<score-partwise>\n<part>\n</score-partwise>")).where).toBe(
      "line 3, column 17",
    );
  });
});

describe("a path that leads out of the archive", () => {
  it("is a name like any other: nothing is written", () => {
    const container = encoder.encode(
      '<container><rootfiles><rootfile full-path="../../../etc/passwd"/></rootfiles></container>',
    );
    const zip = zipSync({ "META-INF/container.xml": container, "../../../etc/passwd": SCORE });
    expect(readTake(zip, { name: "file.mxl" }).notes).toHaveLength(1);
  });
});

describe("a file cut off at any byte", () => {
  it("of MIDI is read up to the break with a warning, or refused", () => {
    const whole = midiFile(
      1,
      96,
      trackChunk([0, 0xff, 0x58, 4, 4, 2, 24, 8], [0, 0xff, 0x51, 3, 7, 0xa1, 0x20], END_OF_TRACK),
      trackChunk(
        [0, 0xff, 3, 2, 82, 72],
        [0, 0xb0, 64, 127],
        [0, 0x90, 60, 64],
        [24, 64, 64],
        [24, 60, 0],
        [0, 64, 0],
        END_OF_TRACK,
      ),
    );
    for (let length = 0; length < whole.length; length++) {
      const end = ending(whole.subarray(0, length));
      if (!(end instanceof Problem)) expect(end.warnings.length, `${length} bytes`).toBeGreaterThan(0);
    }
    expect((ending(whole) as Take).warnings).toEqual([]);
  });

  it("of MusicXML is refused, since what is missing cannot be told", () => {
    // Without the last character, a line end, the document is still whole.
    for (let length = 0; length < SCORE.length; length++) {
      expect(ending(SCORE.subarray(0, length)), `${length} bytes`).toBeInstanceOf(Problem);
    }
  });

  it("of compressed MusicXML is refused", () => {
    const zip = zipSync({ "META-INF/container.xml": CONTAINER, "score.xml": SCORE });
    for (let length = 0; length < zip.length; length++) {
      expect(ending(zip.subarray(0, length)), `${length} bytes`).toBeInstanceOf(Problem);
    }
    expect((ending(zip) as Take).notes).toHaveLength(1);
  });
});

/** Bytes with something behind them that could not be read: what is refused for its beginning never gets there. */
function followedBy(bytes: Uint8Array, rest: Uint8Array): Uint8Array {
  const whole = new Uint8Array(bytes.length + rest.length);
  whole.set(bytes);
  whole.set(rest, bytes.length);
  return whole;
}

describe("a file meant to harm is refused before it can", () => {
  const BROKEN = encoder.encode("<<<&&& \u0000 no XML at all");

  it.each([
    ["entities, before any is expanded", "entities-refused", '<!DOCTYPE a [<!ENTITY a "b">]>'],
    [
      "an external entity, before it is fetched",
      "entities-refused",
      '<!DOCTYPE a [<!ENTITY a SYSTEM "http://127.0.0.1:1/">]>',
    ],
    [
      "parameter entities, before any is expanded",
      "entities-refused",
      '<!DOCTYPE a [<!ENTITY % a "b"> %a;]>',
    ],
    [
      "depth, at the first element too deep",
      "xml-too-deep",
      `<score-partwise>${"<a>".repeat(LIMITS.xmlDepth)}`,
    ],
    [
      "notes, at the first one too many",
      "too-many-notes",
      `<score-partwise><part><measure>${"<note/>".repeat(LIMITS.xmlNotes + 1)}`,
    ],
    [
      "children, at the first one too many",
      "file-too-large",
      `<score-partwise><part><measure><note>${"<lyric/>".repeat(LIMITS.xmlChildren + 1)}`,
    ],
    ["what is no score, at its first element", "not-a-score", "<html>"],
  ])("for its %s", (_, code, text) => {
    expect(problemOf(followedBy(encoder.encode(text), BROKEN)).code).toBe(code);
  });

  it("for its size, before a letter is decoded", () => {
    const huge = new Uint8Array(LIMITS.xmlBytes + 1).fill(0xff);
    huge.set(encoder.encode("<score-partwise>"));
    expect(problemOf(huge).code).toBe("file-too-large");
  });

  it("for what it unpacks to, before the rest is unpacked", () => {
    // The last byte of the packed data is broken: whoever unpacks it all finds damage instead of size.
    const zip = zipSync({ "score.xml": new Uint8Array(2 * LIMITS.xmlBytes) }, { level: 6 });
    const view = new DataView(zip.buffer, zip.byteOffset, zip.byteLength);
    const table = zip.findIndex((_, at) => zip[at] === 0x50 && zip[at + 2] === 0x01 && zip[at + 3] === 0x02);
    zip.fill(0xff, table - 200, table);
    view.setUint32(table + 24, 1000, true);
    expect(problemOf(zip).code).toBe("file-too-large");
  });

  it("for the size that it states, before anything is unpacked", () => {
    const zip = zipSync({ "score.xml": new Uint8Array(LIMITS.xmlBytes + 1) }, { level: 0 });
    zip.fill(0xff, 30 + "score.xml".length, zip.length - 200);
    expect(problemOf(zip).code).toBe("file-too-large");
  });

  it("for its notes, before room is made for them all", () => {
    const strikes = new Strikes(1e9);
    expect(strikes.tick.length).toBe(LIMITS.notes);
    for (let i = 0; i < LIMITS.notes; i++) strikes.strike(i, 60, 64);
    expect(() => strikes.strike(0, 60, 64)).toThrow(expect.objectContaining({ code: "too-many-notes" }));
  });

  it("for its events, after no more of them than the limit", () => {
    let heard = 0;
    const count = () => {
      heard++;
    };
    const listener = { noteOn: count, noteOff: count, controller: count, program: count, meta: count };
    const events = new Uint8Array(3_000).fill(0).map((_, i) => [0, 0xc0, 5][i % 3]!);
    expect(() => walkTrack(events, 0, events.length, 1, 100, listener, collectWarnings())).toThrow(
      expect.objectContaining({ code: "too-many-notes" }),
    );
    expect(heard).toBeLessThanOrEqual(101);
  });
});

describe("a file with something harmless too much", () => {
  it("is read when NUL bytes stand behind its tracks, and says so", () => {
    const track = trackChunk([0, 0x90, 60, 80], [10, 60, 0], END_OF_TRACK);
    const take = ending(followedBy(midiFile(0, 96, track), new Uint8Array(500))) as Take;
    expect(take.notes).toHaveLength(1);
    expect(take.warnings.map(({ code }) => code)).toEqual(["bytes-after-tracks"]);
  });
});
