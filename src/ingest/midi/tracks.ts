import { Problem } from "../../take/index.ts";
import { counted } from "../../words/index.ts";
import { LIMITS } from "../limits.ts";
import { collectWarnings, type WarningCollector } from "../warning-collector.ts";
import { type MidiTrack, TrackCollector } from "./midi-track.ts";
import { readDamaged } from "./read-damaged.ts";
import { SOUND, type StrikeColumns, Strikes, type TrackDamage } from "./strikes.ts";
import { type TrackEnd, walkTrack } from "./walk-track.ts";

/** The header and the tracks of a Standard MIDI File (SMF 1.0, section "Chunk Types"). */
export interface MidiTracks {
  readonly format: 0 | 1 | 2;
  /** The header's division word: ticks to a quarter note, or negative SMPTE frames and ticks. */
  readonly division: number;
  readonly tracks: readonly MidiTrack[];
  readonly strikes: StrikeColumns;
}

const MTHD = 0x4d546864;
/** Bytes that may be left out of a track which would last for years with them. */
const MOST_LEFT = 16;
const MTRK = 0x4d54726b;

/**
 * Reads all tracks of a MIDI file, each up to its last whole event.
 *
 * @throws Problem when there is no header or nothing after it, or when there is more of it than the limits allow.
 */
export function readTracks(file: Uint8Array, warnings: WarningCollector): MidiTracks {
  const view = new DataView(file.buffer, file.byteOffset, file.byteLength);
  const start = findHeader(view, warnings);
  const { format, stated, division, at: firstChunk } = readHeader(view, start);
  // A note takes about eight bytes: two events with their delta times.
  const strikes = new Strikes(file.length >> 3);
  const tracks: MidiTrack[] = [];
  let at = firstChunk;
  let events = 0;
  while (at + 8 <= file.length) {
    const id = view.getUint32(at);
    const length = view.getUint32(at + 4);
    const from = at + 8;
    if (id === MTRK) {
      const number = tracks.length + 1;
      if (number > LIMITS.midiTracks) throw tooManyTracks();
      const end = endOfChunk(view, from, length, number, warnings);
      const collector = new TrackCollector(file, strikes);
      const most = LIMITS.midiEvents - events;
      const { ended, damage } = readTrack({ file, from, end, number, division, most }, collector, warnings);
      events += ended.events;
      tracks.push(collector.finish(number, ended, damage));
      at = nextChunk(view, { from, end, claimed: from + length }, ended, number, warnings);
    } else if (isChunkId(id) && from + length <= file.length) {
      warnings.add(
        "alien-chunk",
        `byte ${at}`,
        (times) =>
          `${counted(times, "chunk")} that the standard does not know ${times === 1 ? "was" : "were"} skipped.`,
      );
      at = from + length;
    } else {
      at = lateTrack(view, at, warnings);
    }
  }
  if (tracks.length === 0) {
    throw new Problem(
      "no-tracks",
      "The MIDI file has a header but no track",
      `byte ${Math.min(at, file.length)}`,
      "Copy or export the file again.",
    );
  }
  if (tracks.length !== stated) {
    warnings.add(
      "track-count",
      `byte ${start + 10}`,
      () => `The header promises ${counted(stated, "track")}; ${tracks.length} were found and read.`,
    );
  }
  return { format, division, tracks, strikes };
}

interface TrackBytes {
  readonly file: Uint8Array;
  readonly from: number;
  readonly end: number;
  readonly number: number;
  readonly division: number;
  readonly most: number;
}

/** Walks a track; one that is not as the standard asks is read anew as what asks for the least damage. */
function readTrack(
  { file, from, end, number, division, most }: TrackBytes,
  collector: TrackCollector,
  warnings: WarningCollector,
): { readonly ended: TrackEnd; readonly damage: TrackDamage } {
  const own = collectWarnings();
  const walked = walkedOrTooLong(() => walkTrack(file, from, end, number, most, collector, own));
  if (!(walked instanceof Problem) && walked.sound) {
    warnings.addAll(own);
    return { ended: walked, damage: SOUND };
  }
  const open = walked instanceof Problem || walked.endOfTrack === null;
  const view = new DataView(file.buffer, file.byteOffset, file.byteLength);
  // What breaks off may hold the next track in what it claims.
  const bound = open ? Math.min(end, findTrack(view, from) ?? end) : end;
  const fresh = collectWarnings();
  const bytes = { from, end: bound, number, ticksPerQuarter: quarterOf(division), most };
  const again = readDamaged(file, bytes, collector, fresh);
  // Times of years again and again are what the file says.
  if (walked instanceof Problem && (again === null || again.left > MOST_LEFT)) throw walked;
  warnings.addAll(again === null ? own : fresh);
  return { ended: again ?? (walked as TrackEnd), damage: again?.damage ?? SOUND };
}

/** Lost bytes can make a time of days: then the track is read anew. */
function walkedOrTooLong(walk: () => TrackEnd): TrackEnd | Problem {
  try {
    return walk();
  } catch (error) {
    if (error instanceof Problem && error.code === "take-too-long") return error;
    throw error;
  }
}

/** Ticks of a quarter note; of a division in frames those of half a second. */
function quarterOf(division: number): number {
  return division > 0 ? division : Math.max(1, (-(division >> 8) * (division & 0xff)) / 2);
}

/** Where a track ends at the latest: its chunk's end, or where that is no end, the next track or the file's end. */
function endOfChunk(
  view: DataView,
  from: number,
  length: number,
  number: number,
  warnings: WarningCollector,
): number {
  const claimed = from + length;
  if (claimed > view.byteLength) {
    warnings.add(
      "truncated-file",
      `track ${number}, byte ${view.byteLength}`,
      () => "The file ends inside a track; it was read up to the break.",
    );
    return view.byteLength;
  }
  if (claimed + 4 > view.byteLength || isChunkId(view.getUint32(claimed))) return claimed;
  return findTrack(view, from) ?? view.byteLength;
}

function findHeader(view: DataView, warnings: WarningCollector): number {
  // RIFF files ("RMID") and disk images put a header of their own before the MIDI file's.
  const last = Math.min(view.byteLength - 4, 512);
  for (let at = 0; at <= last; at++) {
    if (view.getUint32(at) !== MTHD) continue;
    if (at > 0) {
      warnings.add(
        "bytes-before-header",
        "byte 0",
        () => `${counted(at, "byte")} before the MIDI header ${at === 1 ? "was" : "were"} skipped.`,
      );
    }
    return at;
  }
  throw new Problem(
    "not-midi",
    "This is not a MIDI file: it has no MThd header",
    "byte 0",
    "Choose a .mid file.",
  );
}

/** Format, number of tracks and division, and where the first chunk behind the header stands. */
function readHeader(view: DataView, start: number) {
  if (view.byteLength < start + 14) {
    throw new Problem(
      "truncated-header",
      "The MIDI file ends inside its header",
      `byte ${view.byteLength}`,
      "Copy or export the file again.",
    );
  }
  const format = view.getUint16(start + 8);
  if (format > 2) {
    throw new Problem(
      "unknown-midi-format",
      `The MIDI file says that it is of format ${format}; the standard knows 0, 1 and 2`,
      `byte ${start + 8}`,
      "Export it again as format 0 or 1.",
    );
  }
  return {
    format: format as 0 | 1 | 2,
    stated: view.getUint16(start + 10),
    division: view.getInt16(start + 12),
    at: start + 8 + Math.max(6, view.getUint32(start + 4)),
  };
}

/** The next track chunk behind bytes that are no chunk; the file's end where there is none. */
function lateTrack(view: DataView, at: number, warnings: WarningCollector): number {
  const next = findTrack(view, at + 1);
  const size = (next ?? view.byteLength) - at;
  if (next === null) {
    warnings.add(
      "bytes-after-tracks",
      `byte ${at}`,
      () => "After the tracks there are bytes that are no chunk; they were skipped.",
    );
  } else {
    warnings.add(
      "bytes-before-track",
      `byte ${at}`,
      () =>
        `${counted(size, "byte")} before a track ${size === 1 ? "is" : "are"} no chunk; the track was found behind them.`,
    );
  }
  return next ?? view.byteLength;
}

/** Where the next "MTrk" stands, or null. */
function findTrack(view: DataView, from: number): number | null {
  for (let at = from; at + 8 <= view.byteLength; at++) if (view.getUint32(at) === MTRK) return at;
  return null;
}

/**
 * Where the chunk behind a track begins. Some writers state a wrong track length; the end-of-track event and the next
 * MTrk then show where the track ends, and where a track that claims more than the file has breaks off, the next MTrk
 * alone.
 */
function nextChunk(
  view: DataView,
  { from, end, claimed }: { readonly from: number; readonly end: number; readonly claimed: number },
  { endOfTrack }: TrackEnd,
  track: number,
  warnings: WarningCollector,
): number {
  if (end > claimed) {
    if (endOfTrack === claimed) return claimed;
    warnOfLength(track, warnings);
    return endOfTrack ?? end;
  }
  if (end < Math.min(claimed, view.byteLength)) {
    warnOfLength(track, warnings);
    return end;
  }
  const overlong = claimed > view.byteLength;
  // A track that breaks off before it says that it ends may hold the next one in what it claims.
  const held = endOfTrack === null ? findTrack(view, from) : null;
  const swallows = held !== null && held < end;
  const fits = !overlong && !swallows && (end + 4 > view.byteLength || isChunkId(view.getUint32(end)));
  if (fits) return end;
  const next = overlong || swallows ? findTrack(view, endOfTrack ?? from) : endOfTrack;
  if (next !== null && next + 8 <= view.byteLength && view.getUint32(next) === MTRK) {
    warnOfLength(track, warnings);
    return next;
  }
  return end;
}

function warnOfLength(track: number, warnings: WarningCollector): void {
  warnings.add(
    "track-length",
    `track ${track}`,
    (times) =>
      `${counted(times, "track")} with a wrong length ${times === 1 ? "was" : "were"} read to ${times === 1 ? "its" : "their"} end.`,
  );
}

function isChunkId(id: number): boolean {
  for (let shift = 0; shift < 32; shift += 8) {
    const byte = (id >>> shift) & 0xff;
    if (byte < 0x20 || byte > 0x7e) return false;
  }
  return true;
}

function tooManyTracks(): Problem {
  return new Problem(
    "too-many-notes",
    `The file has more than ${LIMITS.midiTracks} tracks`,
    null,
    "Cut it into takes of a few minutes each.",
  );
}
