/**
 * The solo as MIDI, read back by two parsers that others wrote: midifile-ts gives the events, @tonejs/midi the notes
 * with their seconds.
 */
import tonejsMidi from "@tonejs/midi";
import { read } from "midifile-ts";
import { describe, expect, it } from "vitest";
import { soloMidi } from "../../src/export/index.ts";
import { demoTakes } from "./demo-takes.ts";

/** One tick is at most this long: 480 to a quarter note at 30 quarter notes a minute. */
const TICK = 60 / 30 / 480;

describe.each(demoTakes())("the solo of $id", ({ analysis }) => {
  const bytes = soloMidi(analysis);
  const solo = analysis.notes.filter((note) => note.solo);

  it("has every note at its time, to a tick, as @tonejs/midi hears it", () => {
    const { header, tracks } = new tonejsMidi.Midi(bytes);
    expect(header.timeSignatures[0]!.timeSignature).toEqual([
      analysis.chart.meter.beats,
      analysis.chart.meter.unit,
    ]);
    const heard = tracks
      .flatMap((track) => track.notes)
      .sort((a, b) => a.ticks - b.ticks || a.midi - b.midi)
      .map((note) => [note.midi, Math.round(note.velocity * 127)]);
    const played = [...solo].sort((a, b) => a.onset - b.onset || a.pitch - b.pitch);
    const onsets = tracks.flatMap((track) => track.notes).map((note) => note.time);
    expect(heard.length).toBe(solo.length);
    expect(heard.map(String).sort()).toEqual(
      played.map((note) => String([note.pitch, note.velocity])).sort(),
    );
    onsets.sort((a, b) => a - b);
    played.forEach((note, i) => {
      expect(Math.abs(onsets[i]! - note.onset)).toBeLessThan(TICK);
    });
  });

  it("has well-formed tracks: as many note-offs as note-ons and an end, as midifile-ts reads it", () => {
    const file = read(bytes);
    expect([file.header.formatType, file.tracks.length]).toEqual([1, 2]);
    for (const track of file.tracks) {
      expect(track.at(-1)).toMatchObject({ type: "meta", subtype: "endOfTrack" });
    }
    const events = file.tracks[1]!.filter((event) => event.type === "channel");
    const count = (subtype: string) => events.filter((event) => event.subtype === subtype).length;
    expect([count("noteOn"), count("noteOff")]).toEqual([solo.length, solo.length]);
  });
});

describe("a long solo", () => {
  it("is written in one go: an hour of eighths is as many bytes as its events need", () => {
    const [{ analysis }] = demoTakes() as [ReturnType<typeof demoTakes>[number]];
    const one = analysis.notes.find((note) => note.solo)!;
    const notes = Array.from({ length: 50_000 }, (_, i) => ({
      ...one,
      id: `n${i + 1}`,
      onset: i / 14,
      duration: 1 / 14,
    }));
    const bytes = soloMidi({ ...analysis, notes });
    // Delta time of one or two bytes and three bytes for each event.
    expect(bytes.length).toBeLessThan(notes.length * 2 * 5 + 100);
    expect(read(bytes).tracks[1]!.filter((event) => event.type === "channel")).toHaveLength(100_000);
  });
});
