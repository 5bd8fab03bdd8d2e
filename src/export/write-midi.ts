import { type MidiData, type MidiEvent, writeMidi as writeEvents } from "midi-file";
import type { Part, Take } from "../take/index.ts";

/** The drum channel, which no part is put on. */
const DRUMS = 9;
const SUSTAIN = 64;
/** Coarser ticks are divided, so that grace notes find a place of their own. */
const FINE = 240;
/** Chord symbols that are no texts of the source go into a track of this name. */
export const CHORD_TRACK = "Chords";

/** An event with its absolute tick; `order` puts ends before starts at the same tick. */
interface Timed {
  readonly tick: number;
  readonly order: number;
  readonly event: MidiEvent;
}

/**
 * Writes a take as a Standard MIDI File of format 1: tempo map, meters, keys and texts in the first track, then one
 * track for each part, where it stood when the part has a MIDI name ("t2", "t3c4").
 *
 * Notes are written where they are performed, so that grace notes and rubato are heard. Where the source has fewer
 * than 240 ticks to a quarter note, ticks are divided.
 */
export function writeMidi(take: Take): Uint8Array {
  const scale = take.ticksPerQuarter < FINE ? Math.ceil((2 * FINE) / take.ticksPerQuarter) : 1;
  const tickAt = ticksOfSeconds(take, scale);
  const tracks: Timed[][] = [conductor(take, scale)];
  const seats = take.parts.map((part, index) => seatOf(part, index, take.parts));
  take.parts.forEach((part, index) => {
    const { track, channel } = seats[index]!;
    while (tracks.length <= track) tracks.push([]);
    tracks[track]!.push(...partEvents(take, part, channel, track === 0 && take.title !== null, tickAt));
  });
  const chords = take.chords.filter(
    ({ tick, text }) => !take.texts.some((one) => one.tick === tick && one.text === text),
  );
  if (chords.length > 0) {
    tracks.push([
      at(0, named("trackName", CHORD_TRACK)),
      ...chords.map(({ tick, text }) => at(tick * scale, named("text", text))),
    ]);
  }
  const data: MidiData = {
    header: { format: 1, numTracks: tracks.length, ticksPerBeat: take.ticksPerQuarter * scale },
    tracks: tracks.map(deltas),
  };
  return Uint8Array.from(writeEvents(data, { running: true }));
}

function conductor(take: Take, scale: number): Timed[] {
  const events: Timed[] = [];
  if (take.title !== null) events.push(at(0, named("trackName", take.title)));
  const isDefault = take.tempos.length === 1 && take.tempos[0]!.quartersPerMinute === 120;
  for (const { tick, quartersPerMinute } of take.tempoStated || !isDefault ? take.tempos : []) {
    const microsecondsPerBeat = Math.max(1, Math.min(0xffffff, Math.round(60_000_000 / quartersPerMinute)));
    events.push(at(tick * scale, { deltaTime: 0, meta: true, type: "setTempo", microsecondsPerBeat }));
  }
  for (const { tick, beats, unit } of take.meters) {
    events.push(
      at(tick * scale, {
        deltaTime: 0,
        meta: true,
        type: "timeSignature",
        numerator: beats,
        denominator: unit,
        metronome: 24,
        thirtyseconds: 8,
      }),
    );
  }
  for (const { tick, fifths, mode } of take.keys) {
    const key: MidiEvent = {
      deltaTime: 0,
      meta: true,
      type: "keySignature",
      key: fifths,
      scale: mode === "minor" ? 1 : 0,
    };
    events.push(at(tick * scale, key));
  }
  for (const { tick, kind, text } of take.texts) {
    const type = TEXT_TYPES[kind];
    if (type !== null) events.push(at(tick * scale, named(type, text)));
  }
  return events;
}

type TextType = "text" | "lyrics" | "marker" | "cuePoint" | "copyrightNotice" | "trackName";

const TEXT_TYPES = {
  text: "text",
  lyric: "lyrics",
  marker: "marker",
  cue: "cuePoint",
  copyright: "copyrightNotice",
  tempo: "text",
  // The title is the name of the first track.
  title: null,
} as const satisfies Record<Take["texts"][number]["kind"], TextType | null>;

interface Seat {
  /** From 0. */
  readonly track: number;
  readonly channel: number;
}

/** Track and channel that a part's id names; other parts follow one another on channels of their own. */
function seatOf({ id }: Part, index: number, parts: readonly Part[]): Seat {
  const midi = /^t(\d{1,4})(?:c(\d{1,2}))?$/.exec(id);
  const free = index % 15;
  const channel = free < DRUMS ? free : free + 1;
  if (midi === null || !parts.every((part) => part.id.startsWith("t"))) return { track: index + 1, channel };
  const stated = midi[2] === undefined ? channel : Number(midi[2]) - 1;
  return { track: Number(midi[1]) - 1, channel: stated & 0xf };
}

function partEvents(
  take: Take,
  part: Part,
  channel: number,
  hasTitle: boolean,
  tickAt: (seconds: number) => number,
): Timed[] {
  const events: Timed[] = [];
  const name = part.name.replace(/, channel \d+$/, "");
  if (!hasTitle && !/^Track \d+$/.test(name)) events.push(at(0, named("trackName", name)));
  if (part.program !== null) {
    events.push(at(0, { deltaTime: 0, type: "programChange", channel, programNumber: part.program }));
  }
  let pedalled = false;
  for (const note of take.notes) {
    if (note.part !== part.id) continue;
    pedalled ||= note.sounding > note.duration;
    const start = tickAt(note.onset);
    const end = Math.max(start + 1, tickAt(note.onset + note.duration));
    const on: MidiEvent = {
      deltaTime: 0,
      type: "noteOn",
      channel,
      noteNumber: note.pitch,
      velocity: note.velocity,
    };
    const off: MidiEvent = { deltaTime: 0, type: "noteOff", channel, noteNumber: note.pitch, velocity: 64 };
    events.push({ tick: start, order: 2, event: on }, { tick: end, order: 0, event: off });
  }
  if (pedalled || take.parts.length === 1) {
    for (const { seconds, down } of take.pedal) {
      const event: MidiEvent = {
        deltaTime: 0,
        type: "controller",
        channel,
        controllerType: SUSTAIN,
        value: down ? 127 : 0,
      };
      events.push(at(tickAt(seconds), event));
    }
  }
  return events;
}

function ticksOfSeconds(take: Take, scale: number): (seconds: number) => number {
  const { tempos, ticksPerQuarter } = take;
  return (seconds) => {
    let low = 0;
    let high = tempos.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (tempos[middle]!.seconds <= seconds) low = middle;
      else high = middle - 1;
    }
    const mark = tempos[low]!;
    return Math.round(
      scale * (mark.tick + ((seconds - mark.seconds) * mark.quartersPerMinute * ticksPerQuarter) / 60),
    );
  };
}

function at(tick: number, event: MidiEvent): Timed {
  return { tick, order: 1, event };
}

function named(type: TextType, text: string): MidiEvent {
  return { deltaTime: 0, meta: true, type, text: bytesOf(text) };
}

/** The writer takes one character a byte: UTF-8, which readers know by its form. */
function bytesOf(text: string): string {
  return Array.from(new TextEncoder().encode(text), (byte) => String.fromCharCode(byte)).join("");
}

function deltas(track: readonly Timed[]): MidiEvent[] {
  let last = 0;
  const events = [...track]
    .sort((a, b) => a.tick - b.tick || a.order - b.order)
    .map(({ tick, event }): MidiEvent => {
      const deltaTime = tick - last;
      last = tick;
      return { ...event, deltaTime };
    });
  return [...events, { deltaTime: 0, meta: true, type: "endOfTrack" }];
}
