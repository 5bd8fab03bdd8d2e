import { Problem, type Take } from "../../take/index.ts";
import { counted } from "../../words/index.ts";
import { chordsOfTexts } from "../chord-texts.ts";
import { clockOf } from "../clock.ts";
import { LIMITS } from "../limits.ts";
import { type PedalChange, pedalOf } from "../pedal.ts";
import { collectWarnings, type WarningCollector } from "../warning-collector.ts";
import { readConductor } from "./conductor.ts";
import type { MidiTrack } from "./midi-track.ts";
import { orderStrikes } from "./order-strikes.ts";
import { partsOfTracks, warnOfRepairs } from "./parts.ts";
import { performStrikes } from "./perform-strikes.ts";
import { readTexts } from "./texts.ts";
import { readTracks } from "./tracks.ts";

/**
 * Reads a Standard MIDI File of format 0, 1 or 2.
 *
 * The events are walked by our own reader (walk-track.ts). @tonejs/midi loses dangling notes, markers and texts and
 * slows down with the square of the number of notes. The parser beneath it, midi-file, is right about sound files, but
 * it reads past the end of broken ones without a word, refuses a whole file for one wrong meta event and holds an
 * object for every event; a safe reader has to walk every byte before it, and both walks together cost more than
 * twice the parser. So there is one walk; midi-file stands beside it in the tests, as one of the independent parsers
 * against which every note is compared.
 *
 * @param pattern Track of a format 2 file, from 1; null takes the first one with notes.
 * @throws Problem when the file is no MIDI file, has no pitched note or exceeds the limits.
 */
export function readMidi(bytes: Uint8Array, pattern: number | null): Take {
  refuseLarge(bytes);
  const warnings = collectWarnings();
  const { format, division, tracks: all, strikes } = readTracks(bytes, warnings);
  const tracks = format === 2 ? [choosePattern(all, pattern, warnings)] : all;
  const conductor = readConductor(tracks, division, warnings);
  const clock = clockOf(conductor.tempos, conductor.ticksPerQuarter);
  const texts = readTexts(tracks, format);
  const end = tracks.reduce((last, track) => Math.max(last, track.end), 0);
  const pedal = pedalOf(pedalOfTracks(tracks), end, clock);
  warnOfRepairs(tracks, warnings);
  const { parts, partOf } = partsOfTracks(tracks, strikes);
  if (parts.length === 0) throw noNotes(tracks, warnings);
  const order = orderStrikes(strikes, tracks);
  return {
    format: "midi",
    title: texts.title,
    ticksPerQuarter: conductor.ticksPerQuarter,
    notes: performStrikes(strikes, order, parts, partOf, clock, pedal),
    parts,
    tempos: conductor.tempos,
    tempoStated: conductor.tempoStated,
    meters: conductor.meters,
    meterStated: conductor.meterStated,
    keys: conductor.keys,
    bars: [],
    chords: chordsOfTexts(texts.groups),
    texts: texts.texts,
    pedal: pedal.marks,
    swing: null,
    warnings: warnings.list(),
  };
}

function pedalOfTracks(tracks: readonly MidiTrack[]): readonly PedalChange[] {
  if (tracks.length === 1) return tracks[0]!.pedal;
  const changes: PedalChange[] = [];
  for (const { pedal } of tracks) for (const change of pedal) changes.push(change);
  return changes;
}

function refuseLarge(bytes: Uint8Array): void {
  if (bytes.length <= LIMITS.midiBytes) return;
  throw new Problem(
    "file-too-large",
    `The MIDI file has ${bytes.length} bytes; at most ${LIMITS.midiBytes} are read`,
    null,
    "Cut it into takes of a few minutes each.",
  );
}

function choosePattern(
  tracks: readonly MidiTrack[],
  pattern: number | null,
  warnings: WarningCollector,
): MidiTrack {
  const chosen = pattern === null ? tracks.find(hasNotes) : tracks[pattern - 1];
  if (chosen === undefined) {
    if (pattern === null) throw noNotes(tracks, warnings);
    throw new Problem(
      "no-such-pattern",
      `The file has ${counted(tracks.length, "pattern")}; there is no pattern ${pattern}`,
      null,
      `Choose a pattern from 1 to ${tracks.length}.`,
    );
  }
  if (pattern === null && tracks.length > 1) {
    warnings.add(
      "pattern-chosen",
      `track ${chosen.number}`,
      () =>
        `The file holds ${tracks.length} independent patterns (format 2); pattern ${chosen.number} was read, the first with notes. Another can be chosen.`,
    );
  }
  return chosen;
}

function hasNotes({ from, to }: MidiTrack): boolean {
  return to > from;
}

/** What a track without notes may owe to damage rather than to an empty recording. */
const DAMAGE: ReadonlySet<string> = new Set([
  "broken-track",
  "damaged-bytes",
  "truncated-file",
  "bytes-after-tracks",
]);

function noNotes(tracks: readonly MidiTrack[], warnings: WarningCollector): Problem {
  const drums = tracks.some(({ drumNotes }) => drumNotes > 0);
  const damage = drums ? undefined : warnings.list().find(({ code }) => DAMAGE.has(code));
  if (damage !== undefined) {
    return new Problem(
      "broken-file",
      `The MIDI file is damaged and no note of it can be read. ${damage.message.replace(/\.$/, "")}`,
      damage.where,
      "Copy or export the file again.",
    );
  }
  return new Problem(
    drums ? "only-drums" : "no-notes",
    drums ? "The file holds notes of the drum channel only" : "The file holds no notes",
    null,
    "Choose a file with a recorded solo.",
  );
}
