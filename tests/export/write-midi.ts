import {
  META,
  metaBytes,
  midiFileBytes,
  type TimedBytes,
  tempoBytes,
  textBytes,
} from "../../src/export/midi-bytes.ts";
import type { Part, Take } from "../../src/take/index.ts";

/** The drum channel, which no part is put on. */
const DRUMS = 9;
const SUSTAIN = 64;
/** Coarser ticks are divided, so that grace notes find a place of their own. */
const FINE = 240;
/** Chord symbols that are no texts of the source go into a track of this name. */
const CHORD_TRACK = "Chords";

/**
 * Writes a take as a Standard MIDI File of format 1: tempo map, meters, keys and texts in the first track, then one
 * track for each part, where it stood when the part has a MIDI name ("t2", "t3c4").
 *
 * Notes are written where they are performed, so that grace notes and rubato are heard. Where the source has fewer
 * than 240 ticks to a quarter note, ticks are divided. The pedal is written into every part that it lengthens: a take
 * does not keep whose foot it was.
 */
export function writeMidi(take: Take): Uint8Array {
  const scale = take.ticksPerQuarter < FINE ? Math.ceil((2 * FINE) / take.ticksPerQuarter) : 1;
  const tickAt = ticksOfSeconds(take, scale);
  const tracks: TimedBytes[][] = [conductor(take, scale)];
  const seats = take.parts.map((part, index) => seatOf(part, index, take.parts));
  take.parts.forEach((part, index) => {
    const { track, channel } = seats[index]!;
    while (tracks.length <= track) tracks.push([]);
    const events = partEvents(take, part, channel, track === 0 && take.title !== null, tickAt);
    tracks[track] = tracks[track]!.concat(events);
  });
  const chords = take.chords.filter(
    ({ tick, text }) => !take.texts.some((one) => one.tick === tick && one.text === text),
  );
  if (chords.length > 0) {
    tracks.push([
      at(0, textBytes(META.name, CHORD_TRACK)),
      ...chords.map(({ tick, text }) => at(tick * scale, textBytes(META.text, text))),
    ]);
  }
  return midiFileBytes(tracks, take.ticksPerQuarter * scale);
}

function conductor(take: Take, scale: number): TimedBytes[] {
  const events: TimedBytes[] = [];
  if (take.title !== null) events.push(at(0, textBytes(META.name, take.title)));
  const isDefault = take.tempos.length === 1 && take.tempos[0]!.quartersPerMinute === 120;
  for (const { tick, quartersPerMinute } of take.tempoStated || !isDefault ? take.tempos : []) {
    events.push(at(tick * scale, tempoBytes(Math.round(60_000_000 / quartersPerMinute))));
  }
  for (const { tick, beats, unit } of take.meters) {
    events.push(at(tick * scale, metaBytes(META.meter, [beats, Math.log2(unit), 24, 8])));
  }
  for (const { tick, fifths, mode } of take.keys) {
    events.push(at(tick * scale, metaBytes(META.key, [fifths & 0xff, mode === "minor" ? 1 : 0])));
  }
  for (const { tick, kind, text } of take.texts) {
    const type = TEXT_TYPES[kind];
    if (type !== null) events.push(at(tick * scale, textBytes(type, text)));
  }
  return events;
}

const TEXT_TYPES = {
  text: META.text,
  lyric: META.lyric,
  marker: META.marker,
  cue: META.cue,
  copyright: META.copyright,
  tempo: META.text,
  // The title is the name of the first track.
  title: null,
} as const satisfies Record<Take["texts"][number]["kind"], number | null>;

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
): TimedBytes[] {
  const events: TimedBytes[] = [];
  const name = part.name.replace(/, channel \d+$/, "");
  if (!hasTitle && !/^Track \d+$/.test(name)) events.push(at(0, textBytes(META.name, name)));
  if (part.program !== null) {
    events.push(at(0, [0xc0 | channel, part.program]));
  }
  let pedalled = false;
  for (const note of take.notes) {
    if (note.part !== part.id) continue;
    pedalled ||= note.sounding > note.duration;
    const start = tickAt(note.onset);
    const end = Math.max(start + 1, tickAt(note.onset + note.duration));
    events.push({ tick: start, order: 2, bytes: [0x90 | channel, note.pitch, note.velocity] });
    events.push({ tick: end, order: 0, bytes: [0x80 | channel, note.pitch, 64] });
  }
  if (pedalled || take.parts.length === 1) {
    for (const { seconds, down } of take.pedal) {
      events.push(at(tickAt(seconds), [0xb0 | channel, SUSTAIN, down ? 127 : 0]));
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

function at(tick: number, bytes: readonly number[]): TimedBytes {
  return { tick, order: 1, bytes };
}
