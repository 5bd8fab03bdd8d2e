/** Files for people, read back by two parsers that others wrote. */

import { parseMidi } from "midi-file";
import { read } from "midifile-ts";
import { describe, expect, it } from "vitest";
import { createRecording, recordingFile } from "../../client/record/recording.ts";
import { playMidi } from "../../src/export/play-midi.ts";

const FILE = {
  title: "Two bars",
  tempo: 143,
  meter: { beats: 6, unit: 8 },
  tracks: [
    {
      name: "Right hand",
      channel: 0,
      program: 0,
      notes: [
        { at: 0, beats: 1, pitch: 60, velocity: 1 },
        { at: 1, beats: 1, pitch: 60, velocity: 127 },
        { at: 1, beats: 0, pitch: 64, velocity: 64 },
      ],
      pedal: [
        { at: 0, down: true },
        { at: 2, down: false },
      ],
    },
    { name: "Click", channel: 9, program: 0, notes: [{ at: 0.5, beats: 0.1, pitch: 76, velocity: 100 }] },
  ],
};

describe("a file to play along with", () => {
  const bytes = playMidi(FILE);

  it("states tempo, meter and names, to the microsecond", () => {
    const [head, hand, click] = parseMidi(bytes).tracks;
    // 60,000,000 / 143 = 419,580.4 microseconds a quarter note.
    expect(head).toContainEqual(expect.objectContaining({ type: "setTempo", microsecondsPerBeat: 419_580 }));
    expect(head).toContainEqual(expect.objectContaining({ numerator: 6, denominator: 8 }));
    expect([head, hand, click].map((track) => track!.find((event) => event.type === "trackName"))).toEqual([
      expect.objectContaining({ text: "Two bars" }),
      expect.objectContaining({ text: "Right hand" }),
      expect.objectContaining({ text: "Click" }),
    ]);
  });

  it("keeps every velocity, lets a key go before it is struck again, and gives no note less than a tick", () => {
    let now = 0;
    const events = read(bytes).tracks[1]!.flatMap((event) => {
      now += event.deltaTime;
      return event.type === "channel" && "velocity" in event
        ? [`${now} ${event.subtype} ${event.noteNumber} ${event.velocity}`]
        : [];
    });
    expect(events).toEqual([
      "0 noteOn 60 1",
      "480 noteOff 60 64",
      "480 noteOn 60 127",
      "480 noteOn 64 64",
      "481 noteOff 64 64",
      "960 noteOff 60 64",
    ]);
  });

  it("keeps the pedal and the drum channel", () => {
    const [, hand, click] = parseMidi(bytes).tracks;
    expect(hand!.flatMap((event) => (event.type === "controller" ? [event.value] : []))).toEqual([127, 0]);
    expect(click!.find((event) => event.type === "noteOn")).toMatchObject({ channel: 9, noteNumber: 76 });
  });
});

describe("a recording of the page", () => {
  it("has what was played where it was played, at the tempo of the click", () => {
    const recording = createRecording();
    recording.pedal(true, 0.9);
    recording.press(62, 90, 1);
    recording.press(62, 0, 1.5);
    recording.press(65, 70, 1.5);
    const bytes = recordingFile(recording.finish(2), 120, { beats: 4, unit: 4 });
    const notes = parseMidi(bytes).tracks[1]!;
    let now = 0;
    const struck = notes.flatMap((event) => {
      now += event.deltaTime;
      return event.type === "noteOn" ? [[now, event.noteNumber, event.velocity]] : [];
    });
    // 120 a minute: a second is two quarter notes of 480 ticks.
    expect(struck).toEqual([
      [960, 62, 90],
      [1440, 65, 70],
    ]);
  });
});
