/**
 * MIDI files that are made for people to open: exercises to play along with, recordings of the page. They are written
 * by `@tonejs/midi`, which needs half a second for 3,000 notes and a minute for 20,000; a whole take of any length is
 * written by `midi-bytes.ts`.
 */
import tonejsMidi from "@tonejs/midi";
import { TICKS_PER_QUARTER } from "./midi-bytes.ts";

export interface PlayNote {
  /** Quarter notes from the beginning of the file. */
  readonly at: number;
  /** Length in quarter notes; what is shorter than a tick is written as one. */
  readonly beats: number;
  /** MIDI number. */
  readonly pitch: number;
  /** 1 to 127. */
  readonly velocity: number;
}

export interface PlayTrack {
  readonly name: string;
  /** From 0; 9 is the drum channel of General MIDI. */
  readonly channel: number;
  /** Program of General MIDI, from 0. */
  readonly program: number;
  readonly notes: readonly PlayNote[];
  /** The sustain pedal, where it goes down and up. */
  readonly pedal?: readonly { readonly at: number; readonly down: boolean }[];
}

export interface PlayFile {
  readonly title: string;
  /** Quarter notes a minute. */
  readonly tempo: number;
  readonly meter: { readonly beats: number; readonly unit: number };
  readonly tracks: readonly PlayTrack[];
}

const SUSTAIN = 64;

/** A Standard MIDI File of format 1 with one tempo and one meter: a first track with these, then a track a part. */
export function playMidi({ title, tempo, meter, tracks }: PlayFile): Uint8Array {
  const midi = new tonejsMidi.Midi();
  midi.name = title;
  // The library cuts off what is left over a whole number of microseconds; so the nearest one is asked for.
  midi.header.setTempo(60_000_000 / (Math.round(60_000_000 / tempo) + 0.5));
  midi.header.timeSignatures.push({ ticks: 0, timeSignature: [meter.beats, meter.unit] });
  for (const { name, channel, program, notes, pedal = [] } of tracks) {
    const track = midi.addTrack();
    track.name = name;
    track.channel = channel;
    track.instrument.number = program;
    for (const { at, beats, pitch, velocity } of notes) {
      track.addNote({
        midi: pitch,
        ticks: ticksOf(at),
        durationTicks: Math.max(1, ticksOf(at + beats) - ticksOf(at)),
        velocity: ofWhole(velocity),
        noteOffVelocity: ofWhole(64),
      });
    }
    for (const { at, down } of pedal) {
      track.addCC({ number: SUSTAIN, ticks: ticksOf(at), value: down ? 1 : 0 });
    }
  }
  return midi.toArray();
}

const ticksOf = (beats: number): number => Math.round(beats * TICKS_PER_QUARTER);

/** A share that the library turns back into the same whole number of 127: it cuts off, too. */
function ofWhole(value: number): number {
  return Math.min(1, (value + 0.5) / 127);
}
