import { type MidiEvent, writeMidi } from "midi-file";
import type { Performance, Played } from "./performance.ts";
import type { TakeSpec } from "./spec.ts";

const PPQ = 480;

/** Tempo that a recorder claims when it was not set by anybody. */
const UNSET_TEMPO = 120;

/** A Standard MIDI File of a performance, format 1, as a digital piano and a sequencer would leave it. */
export function midiFile(spec: TakeSpec, performance: Performance): Uint8Array {
  const tempo = spec.time.kind === "click" ? spec.time.tempo : UNSET_TEMPO;
  const ticksPerSecond = (tempo / 60) * PPQ;
  const head: MidiEvent[] = [
    { deltaTime: 0, type: "trackName", text: spec.title },
    { deltaTime: 0, type: "timeSignature", numerator: 4, denominator: 4, metronome: 24, thirtyseconds: 8 },
  ];
  if (spec.time.kind === "click") {
    head.push({ deltaTime: 0, type: "setTempo", microsecondsPerBeat: Math.round(60_000_000 / tempo) });
  }
  head.push({ deltaTime: 0, type: "endOfTrack" });
  const { solo, comping } = performance;
  const tracks: MidiEvent[][] = [head];
  if (spec.comping.layout === "one track") {
    tracks.push(track("Piano", [...solo, ...comping], ticksPerSecond, 0));
  } else {
    tracks.push(track("Right hand", solo, ticksPerSecond, 0));
    if (comping.length > 0) tracks.push(track("Left hand", comping, ticksPerSecond, 1));
  }
  return Uint8Array.from(
    writeMidi({ header: { format: 1, numTracks: tracks.length, ticksPerBeat: PPQ }, tracks }),
  );
}

function track(name: string, notes: readonly Played[], ticksPerSecond: number, channel: number): MidiEvent[] {
  const presses: { tick: number; order: number; on: boolean; pitch: number; velocity: number }[] = [];
  for (const note of notes) {
    const on = Math.max(0, Math.round(note.onset * ticksPerSecond));
    const off = Math.max(on + 1, Math.round((note.onset + note.duration) * ticksPerSecond));
    presses.push({ tick: on, order: 1, on: true, pitch: note.pitch, velocity: note.velocity });
    presses.push({ tick: off, order: 0, on: false, pitch: note.pitch, velocity: 64 });
  }
  presses.sort((a, b) => a.tick - b.tick || a.order - b.order || a.pitch - b.pitch);
  const events: MidiEvent[] = [
    { deltaTime: 0, type: "trackName", text: name },
    { deltaTime: 0, channel, type: "programChange", programNumber: 0 },
  ];
  let now = 0;
  for (const press of presses) {
    const deltaTime = press.tick - now;
    now = press.tick;
    events.push(
      press.on
        ? { deltaTime, channel, type: "noteOn", noteNumber: press.pitch, velocity: press.velocity }
        : { deltaTime, channel, type: "noteOff", noteNumber: press.pitch, velocity: press.velocity },
    );
  }
  events.push({ deltaTime: 0, type: "endOfTrack" });
  return events;
}
