/** What was played, and the Standard MIDI File that it becomes. */
import { type MidiEvent, writeMidi } from "midi-file";

const TICKS = 480;

export interface RecordedNote {
  readonly pitch: number;
  readonly velocity: number;
  /** Seconds from the start of the count-in. */
  readonly onset: number;
  readonly release: number;
}

export interface Recording {
  press(pitch: number, velocity: number, seconds: number): void;
  pedal(down: boolean, seconds: number): void;
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
    notes.push({ pitch, ...note, release: Math.max(seconds, note.onset + 0.02) });
  };
  return {
    press(pitch, velocity, seconds) {
      release(pitch, seconds);
      if (velocity > 0) held.set(pitch, { velocity, onset: Math.max(0, seconds) });
    },
    pedal(down, seconds) {
      pedal.push({ down, seconds: Math.max(0, seconds) });
    },
    finish(seconds) {
      for (const pitch of [...held.keys()]) release(pitch, seconds);
      return { notes: notes.sort((a, b) => a.onset - b.onset), pedal };
    },
  };
}

/** A file of format 0 whose bars are the click's bars. */
export function recordingFile(
  recorded: ReturnType<Recording["finish"]>,
  quartersPerMinute: number,
  meter: { readonly beats: number; readonly unit: number },
): Uint8Array {
  const tick = (seconds: number) => Math.round((seconds * quartersPerMinute * TICKS) / 60);
  const timed: { tick: number; order: number; event: MidiEvent }[] = [];
  for (const note of recorded.notes) {
    timed.push({
      tick: tick(note.onset),
      order: 1,
      event: { deltaTime: 0, type: "noteOn", channel: 0, noteNumber: note.pitch, velocity: note.velocity },
    });
    timed.push({
      tick: Math.max(tick(note.onset) + 1, tick(note.release)),
      order: 0,
      event: { deltaTime: 0, type: "noteOff", channel: 0, noteNumber: note.pitch, velocity: 64 },
    });
  }
  for (const { down, seconds } of recorded.pedal) {
    timed.push({
      tick: tick(seconds),
      order: 2,
      event: { deltaTime: 0, type: "controller", channel: 0, controllerType: 64, value: down ? 127 : 0 },
    });
  }
  timed.sort((a, b) => a.tick - b.tick || a.order - b.order);
  let last = 0;
  const events: MidiEvent[] = [
    {
      deltaTime: 0,
      meta: true,
      type: "setTempo",
      microsecondsPerBeat: Math.round(60_000_000 / quartersPerMinute),
    },
    {
      deltaTime: 0,
      meta: true,
      type: "timeSignature",
      numerator: meter.beats,
      denominator: meter.unit,
      metronome: 24,
      thirtyseconds: 8,
    },
    ...timed.map(({ tick: at, event }) => {
      const deltaTime = at - last;
      last = at;
      return { ...event, deltaTime };
    }),
    { deltaTime: 0, meta: true, type: "endOfTrack" },
  ];
  return Uint8Array.from(
    writeMidi({ header: { format: 0, numTracks: 1, ticksPerBeat: TICKS }, tracks: [events] }),
  );
}
