/**
 * Every MIDI file that the packages carry, note by note against parsers that others wrote.
 *
 * midifile-ts and midi-file read events, each with code of its own; the note-ons and note-offs of the first are paired
 * here, first struck first released. @tonejs/midi pairs those of the second itself.
 */
import tonejsMidi from "@tonejs/midi";
import { parseMidi } from "midi-file";
import { read } from "midifile-ts";
import { beforeAll, describe, expect, it } from "vitest";
import { readTake } from "../../src/ingest/index.ts";
import { ABSENT_PACKAGES, bytesOf, FOREIGN_FILES } from "./foreign-files.ts";

const DRUMS = 9;
const FILES = FOREIGN_FILES.filter(({ name }) => name.endsWith(".mid"));

/** Where @tonejs/midi differs, and why it is not the file's truth. */
const TONEJS_DIFFERS: Readonly<Record<string, string>> = {
  "chuggachugga.mid": "a note-on without a note-off: @tonejs/midi drops it and pairs the one before too late",
  "keep_on_rolling.mid":
    "note-offs before any note-on: @tonejs/midi pairs them with notes that are struck later",
  "no_work_song_redfarn.mid":
    "a program change inside a track: @tonejs/midi splits the track and loses notes across it",
  "tttheme2.mid": "a program change inside a track, and a note of length 0, which is given one tick here",
};

/** "tick pitch velocity" of every pitched note-on, and all lengths that pairing first to first gives. */
function eventsOf(bytes: Uint8Array): { starts: string[]; whole: Map<string, number> } {
  const starts: string[] = [];
  const whole = new Map<string, number>();
  for (const track of read(bytes).tracks) {
    let tick = 0;
    const open = new Map<string, { tick: number; velocity: number }[]>();
    for (const event of track) {
      tick += event.deltaTime;
      if (event.type !== "channel" || event.channel === DRUMS) continue;
      if (event.subtype !== "noteOn" && event.subtype !== "noteOff") continue;
      const key = `${event.channel} ${event.noteNumber}`;
      if (event.subtype === "noteOn" && event.velocity > 0) {
        starts.push(`${tick} ${event.noteNumber} ${event.velocity}`);
        open.set(key, [...(open.get(key) ?? []), { tick, velocity: event.velocity }]);
      } else {
        const first = open.get(key)?.shift();
        if (first === undefined) continue;
        const note = `${first.tick} ${event.noteNumber} ${first.velocity} ${Math.max(1, tick - first.tick)}`;
        whole.set(note, (whole.get(note) ?? 0) + 1);
      }
    }
  }
  return { starts: starts.sort(), whole };
}

/** The same note-ons, read by midi-file. */
function startsByMidiFile(bytes: Uint8Array): string[] {
  return parseMidi(bytes)
    .tracks.flatMap((track) => {
      let tick = 0;
      return track.map((event) => {
        tick += event.deltaTime;
        return event.type === "noteOn" && event.channel !== DRUMS
          ? `${tick} ${event.noteNumber} ${event.velocity}`
          : "";
      });
    })
    .filter((start) => start !== "")
    .sort();
}

describe.each(FILES)("$package $name", (file) => {
  const bytes = bytesOf(file);
  const take = readTake(bytes, { name: file.name });
  let tonejs: InstanceType<typeof tonejsMidi.Midi>;
  beforeAll(() => {
    tonejs = new tonejsMidi.Midi(bytes);
  });

  it("has the note-ons that midifile-ts reads, and the lengths that its events give", () => {
    const { starts, whole } = eventsOf(bytes);
    expect(take.notes.map((note) => `${note.tick} ${note.pitch} ${note.velocity}`).sort()).toEqual(starts);
    const hanging = take.warnings.some((warning) => warning.code === "hanging-note");
    const unpaired = take.notes.filter((note) => {
      const key = `${note.tick} ${note.pitch} ${note.velocity} ${note.ticks}`;
      const left = whole.get(key) ?? 0;
      whole.set(key, left - 1);
      return left <= 0;
    });
    // A hanging note ends the pairing of its key: the note before it ends when it is struck again.
    expect(unpaired.length).toBeLessThanOrEqual(hanging ? 2 : 0);
  });

  it("has the note-ons that midi-file reads", () => {
    const ours = take.notes.map((note) => `${note.tick} ${note.pitch} ${note.velocity}`);
    expect(ours.sort()).toEqual(startsByMidiFile(bytes));
  });

  it("has the notes that @tonejs/midi reads, or the difference is explained", () => {
    const theirs = tonejs.tracks
      .filter((track) => track.channel !== DRUMS)
      .flatMap((track) => track.notes)
      .map((note) => `${note.ticks} ${note.midi} ${Math.round(note.velocity * 127)} ${note.durationTicks}`);
    const ours = take.notes.map((note) => `${note.tick} ${note.pitch} ${note.velocity} ${note.ticks}`);
    if (TONEJS_DIFFERS[file.name] === undefined) expect(ours.sort()).toEqual(theirs.sort());
    else expect(ours.sort()).not.toEqual(theirs.sort());
  });

  it("has onsets in seconds as @tonejs/midi computes them from the tempo map", () => {
    const { header } = tonejs;
    // Its times before the first tempo are wrong unless that stands at the start.
    if ((header.tempos[0]?.ticks ?? 0) > 0) return;
    const worst = Math.max(
      ...take.notes.map((note) => Math.abs(note.onset - header.ticksToSeconds(note.tick))),
    );
    expect(worst).toBeLessThan(1e-6);
  });
});

describe.skipIf(ABSENT_PACKAGES.length === 0)("files that are not on this machine", () => {
  it.skip.each([...ABSENT_PACKAGES])("%s: run tests/outside/fetch-foreign.sh", () => {});
});
