/** What was played, and the Standard MIDI File that it becomes. */
import { playMidi } from "../../src/export/play-midi.ts";

export interface RecordedNote {
  readonly pitch: number;
  readonly velocity: number;
  /** Seconds from the start of the count-in. */
  readonly onset: number;
  readonly release: number;
}

export interface Recorded {
  readonly notes: readonly RecordedNote[];
  readonly pedal: readonly { readonly down: boolean; readonly seconds: number }[];
}

export interface Recording {
  press(pitch: number, velocity: number, seconds: number): void;
  pedal(down: boolean, seconds: number): void;
  /** What was played until now, what still sounds closed at `seconds`; the recording goes on. */
  soFar(seconds: number): Recorded;
  /** Lets go of keys and pedal: a keyboard that was unplugged will never say so itself. */
  letGo(seconds: number): void;
  /** Closes what still sounds. */
  finish(seconds: number): { notes: RecordedNote[]; pedal: { down: boolean; seconds: number }[] };
}

export function createRecording(): Recording {
  const notes: RecordedNote[] = [];
  const pedal: { down: boolean; seconds: number }[] = [];
  const held = new Map<number, { velocity: number; onset: number }>();
  const release = (pitch: number, seconds: number) => {
    const note = held.get(pitch);
    if (!note) return;
    held.delete(pitch);
    notes.push({ pitch, ...note, release: end(note.onset, seconds) });
  };
  return {
    press(pitch, velocity, seconds) {
      release(pitch, seconds);
      if (velocity > 0) held.set(pitch, { velocity, onset: Math.max(0, seconds) });
    },
    pedal(down, seconds) {
      pedal.push({ down, seconds: Math.max(0, seconds) });
    },
    soFar(seconds) {
      const sounding = [...held].map(([pitch, note]) => ({
        pitch,
        ...note,
        release: end(note.onset, seconds),
      }));
      return { notes: [...notes, ...sounding].sort((a, b) => a.onset - b.onset), pedal: [...pedal] };
    },
    letGo(seconds) {
      for (const pitch of [...held.keys()]) release(pitch, seconds);
      if (pedal.at(-1)?.down) pedal.push({ down: false, seconds: Math.max(0, seconds) });
    },
    finish(seconds) {
      for (const pitch of [...held.keys()]) release(pitch, seconds);
      return { notes: notes.sort((a, b) => a.onset - b.onset), pedal };
    },
  };
}

/** Seconds at which a note ends that is let go at `seconds`: never before it sounded. */
const end = (onset: number, seconds: number): number => Math.max(seconds, onset + 0.02);

/** A file whose bars are the click's bars. */
export function recordingFile(
  { notes, pedal }: Recorded,
  quartersPerMinute: number,
  meter: { readonly beats: number; readonly unit: number },
): Uint8Array {
  const beatsOf = (seconds: number) => (seconds * quartersPerMinute) / 60;
  const played = notes.map(({ onset, release, pitch, velocity }) => ({
    at: beatsOf(onset),
    beats: beatsOf(release - onset),
    pitch,
    velocity,
  }));
  const pressed = pedal.map(({ seconds, down }) => ({ at: beatsOf(seconds), down }));
  return playMidi({
    title: "",
    tempo: quartersPerMinute,
    meter,
    tracks: [{ name: "Piano", channel: 0, program: 0, notes: played, pedal: pressed }],
  });
}
