import { parseMidi } from "midi-file";
import { type Note, type Part, Problem, type Take } from "../../take/index.ts";
import { chordsOfTexts } from "../chord-texts.ts";
import { clockOf, type TickClock } from "../clock.ts";
import { LIMITS } from "../limits.ts";
import { collectNotices, count, type Notices } from "../notices.ts";
import { type Pedal, pedalOf } from "../pedal.ts";
import { nextStrikes } from "../restrikes.ts";
import { splitChunks } from "./chunks.ts";
import { readConductor } from "./conductor.ts";
import { type PairedNote, pairNotes } from "./pair-notes.ts";
import { pedalChanges } from "./pedal-changes.ts";
import { readTexts } from "./texts.ts";
import { type TimedTrack, timedTracks } from "./timed-track.ts";

/** The drum channel of General MIDI (channel 10), counted from 0. */
const DRUMS = 9;

/**
 * Reads a Standard MIDI File of format 0, 1 or 2.
 *
 * Events come from midi-file's `parseMidi`; the wrapper around it that makes notes of them, @tonejs/midi, loses
 * dangling notes, markers and texts and slows down with the square of the number of notes, so notes are paired here.
 *
 * @param pattern Track of a format 2 file, from 1; null takes the first one with notes.
 * @throws Problem when the file is no MIDI file, has no pitched note or exceeds the limits.
 */
export function readMidi(bytes: Uint8Array, pattern: number | null): Take {
  if (bytes.length > LIMITS.midiBytes) {
    throw new Problem(
      "file-too-large",
      `The MIDI file has ${bytes.length} bytes; at most ${LIMITS.midiBytes} are read`,
      null,
      "Cut it into takes of a few minutes each.",
    );
  }
  const notices = collectNotices();
  const chunks = splitChunks(bytes, notices);
  const all = timedTracks(parsed(chunks.bytes));
  const tracks = chunks.format === 2 ? [choosePattern(all, pattern, notices)] : all;
  const conductor = readConductor(tracks, chunks.division, notices);
  const clock = clockOf(conductor.tempos, conductor.ticksPerQuarter);
  const texts = readTexts(tracks, chunks.format);
  const { changes, end } = pedalChanges(tracks, DRUMS);
  const pedal = pedalOf(changes, end, clock);
  const { notes, parts } = collectNotes(tracks, clock, pedal, notices);
  return {
    format: "midi",
    title: texts.title,
    ticksPerQuarter: conductor.ticksPerQuarter,
    notes,
    parts,
    tempos: conductor.tempos,
    tempoStated: conductor.tempoStated,
    meters: conductor.meters,
    keys: conductor.keys,
    bars: [],
    chords: chordsOfTexts(texts.groups),
    texts: texts.texts,
    pedal: pedal.marks,
    swing: null,
    warnings: notices.warnings(),
  };
}

function parsed(bytes: Uint8Array) {
  try {
    return parseMidi(bytes);
  } catch (error) {
    // parseMidi throws strings.
    throw new Problem(
      "unreadable-midi",
      `The MIDI events cannot be read: ${error}`,
      null,
      "Export the file again.",
    );
  }
}

function choosePattern(tracks: readonly TimedTrack[], pattern: number | null, notices: Notices): TimedTrack {
  const sounding = tracks.filter((track) => track.events.some((event) => event.type === "noteOn"));
  const chosen = pattern === null ? sounding[0] : tracks[pattern - 1];
  if (chosen === undefined) {
    throw new Problem(
      pattern === null ? "no-notes" : "no-such-pattern",
      pattern === null
        ? "The file holds no notes"
        : `The file has ${count(tracks.length, "pattern")}; there is no pattern ${pattern}`,
      null,
      pattern === null
        ? "Choose a file with a recorded solo."
        : `Choose a pattern from 1 to ${tracks.length}.`,
    );
  }
  if (pattern === null && tracks.length > 1) {
    notices.add(
      "pattern-chosen",
      `track ${chosen.number}`,
      () =>
        `The file holds ${tracks.length} independent patterns (format 2); pattern ${chosen.number} was read, the first with notes.`,
    );
  }
  return chosen;
}

interface OpenPart {
  readonly id: string;
  readonly name: string;
  readonly program: number | null;
  readonly notes: PairedNote[];
}

function collectNotes(
  tracks: readonly TimedTrack[],
  clock: TickClock,
  pedal: Pedal,
  notices: Notices,
): { notes: Note[]; parts: Part[] } {
  const open: OpenPart[] = [];
  let drums = 0;
  for (const track of tracks) {
    const byChannel = new Map<number, PairedNote[]>();
    const { notes: paired, drumNotes } = pairNotes(track, DRUMS, notices);
    for (const note of paired) {
      const list = byChannel.get(note.channel);
      if (list === undefined) byChannel.set(note.channel, [note]);
      else list.push(note);
    }
    if (drumNotes > 0) {
      drums += drumNotes;
      notices.add(
        "drums-left-out",
        `track ${track.number}, channel ${DRUMS + 1}`,
        (times) => `${count(times, "note")} of the drum channel ${times === 1 ? "was" : "were"} left out.`,
        drumNotes,
      );
    }
    const several = byChannel.size > 1;
    for (const [channel, notes] of [...byChannel].sort(([a], [b]) => a - b)) {
      const name = track.name ?? `Track ${track.number}`;
      open.push({
        id: several ? `t${track.number}c${channel + 1}` : `t${track.number}`,
        name: several ? `${name}, channel ${channel + 1}` : name,
        program: programAt(tracks, track, channel, notes[0]!.tick),
        notes,
      });
    }
  }
  if (open.length === 0) {
    throw new Problem(
      drums > 0 ? "only-drums" : "no-notes",
      drums > 0 ? "The file holds notes of the drum channel only" : "The file holds no notes",
      null,
      "Choose a file with a recorded solo.",
    );
  }
  return { notes: orderNotes(open, clock, pedal), parts: open.map(partOf) };
}

function partOf({ id, name, program, notes }: OpenPart): Part {
  return { id, name, staves: 1, program, notes: notes.length };
}

function orderNotes(parts: readonly OpenPart[], clock: TickClock, pedal: Pedal): Note[] {
  const loose: { part: string; note: PairedNote }[] = [];
  for (const { id, notes } of parts) for (const note of notes) loose.push({ part: id, note });
  // Sorting is stable, so that equal notes keep the order of their parts.
  loose.sort((a, b) => a.note.tick - b.note.tick || a.note.pitch - b.note.pitch);
  const last = loose.at(-1)!;
  if (clock.seconds(last.note.tick) > LIMITS.seconds) {
    throw new Problem(
      "take-too-long",
      `The last note stands ${Math.round(clock.seconds(last.note.tick) / 3600)} hours after the start`,
      null,
      "Cut the file to the solo; at most 12 hours are read.",
    );
  }
  const restrikes = nextStrikes(
    loose.map(({ note }) => ({ key: note.channel * 128 + note.pitch, at: note.tick })),
  );
  return loose.map(({ part, note }, index) => {
    const onset = clock.seconds(note.tick);
    const release = clock.seconds(note.tick + note.ticks);
    const duration = release - onset;
    const silence = Math.min(pedal.silence(String(note.channel), release), clock.seconds(restrikes[index]!));
    return {
      id: `n${index + 1}`,
      pitch: note.pitch,
      onset,
      duration,
      sounding: Math.max(duration, silence - onset),
      velocity: note.velocity,
      tick: note.tick,
      ticks: note.ticks,
      part,
      printed: null,
    };
  });
}

/** The last program change on the channel up to the first note; one of the same track wins over another track's. */
function programAt(
  tracks: readonly TimedTrack[],
  own: TimedTrack,
  channel: number,
  tick: number,
): number | null {
  let program: number | null = null;
  for (const track of [...tracks.filter((other) => other !== own), own]) {
    for (let i = 0; i < track.events.length && track.ticks[i]! <= tick; i++) {
      const event = track.events[i]!;
      if (event.type === "programChange" && event.channel === channel) program = event.programNumber;
    }
  }
  return program;
}
