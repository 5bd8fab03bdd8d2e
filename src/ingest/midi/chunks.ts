import { Problem } from "../../take/index.ts";
import { LIMITS } from "../limits.ts";
import { count, type Notices } from "../notices.ts";
import { scanTrack, type TrackScan } from "./scan-track.ts";

/** The chunks of a Standard MIDI File (SMF 1.0, section "Chunk Types"), made safe for the parser. */
export interface MidiChunks {
  readonly format: 0 | 1 | 2;
  /** The header's division word: ticks to a quarter note, or negative SMPTE frames and ticks. */
  readonly division: number;
  /** A well-formed MIDI file with the same events: only whole events, every length right. */
  readonly bytes: Uint8Array;
  readonly tracks: number;
  readonly events: number;
}

const MTHD = 0x4d546864;
const MTRK = 0x4d54726b;

/**
 * Splits a MIDI file into chunks and cuts every track after its last whole event. The parser beneath reads past the
 * end of a broken file without a word and throws away a whole file for one wrong meta event, so the bytes are put
 * right before it sees them.
 *
 * @throws Problem when there is no header or nothing after it, or when there is more of it than the limits allow.
 */
export function splitChunks(file: Uint8Array, notices: Notices): MidiChunks {
  const start = findHeader(file, notices);
  const view = new DataView(file.buffer, file.byteOffset, file.byteLength);
  if (file.length < start + 14) {
    throw new Problem(
      "truncated-header",
      "The MIDI file ends inside its header",
      `byte ${file.length}`,
      "Copy or export the file again.",
    );
  }
  const headerLength = view.getUint32(start + 4);
  const format = view.getUint16(start + 8);
  const stated = view.getUint16(start + 10);
  const division = view.getInt16(start + 12);
  if (format > 2) {
    throw new Problem(
      "unknown-midi-format",
      `The MIDI file says that it is of format ${format}; the standard knows 0, 1 and 2`,
      `byte ${start + 8}`,
      "Export it again as format 0 or 1.",
    );
  }

  const found: { from: number; scan: TrackScan }[] = [];
  let at = start + 8 + Math.max(6, headerLength);
  let events = 0;
  let notes = 0;
  while (at + 8 <= file.length) {
    const id = view.getUint32(at);
    const length = view.getUint32(at + 4);
    const from = at + 8;
    const end = Math.min(from + length, file.length);
    if (id === MTRK) {
      const number = found.length + 1;
      if (from + length > file.length) {
        notices.add(
          "truncated-file",
          `track ${number}, byte ${file.length}`,
          () => "The file ends inside a track; it was read up to the break.",
        );
      }
      const scan = scanTrack(file, from, end, number, notices);
      events += scan.events;
      notes += scan.noteOns;
      refuseTooMany(notes, events);
      found.push({ from, scan });
      at = nextChunk(view, end, scan, number, notices);
    } else if (isChunkId(id)) {
      notices.add(
        "alien-chunk",
        `byte ${at}`,
        (times) =>
          `${count(times, "chunk")} that the standard does not know ${times === 1 ? "was" : "were"} skipped.`,
      );
      at = end;
    } else {
      notices.add(
        "bytes-after-tracks",
        `byte ${at}`,
        () => "After the tracks there are bytes that are no chunk; they were skipped.",
      );
      break;
    }
  }
  if (found.length === 0) {
    throw new Problem(
      "no-tracks",
      "The MIDI file has a header but no track",
      `byte ${Math.min(at, file.length)}`,
      "Copy or export the file again.",
    );
  }
  if (found.length !== stated) {
    notices.add(
      "track-count",
      `byte ${start + 10}`,
      () => `The header promises ${count(stated, "track")}; ${found.length} were found and read.`,
    );
  }
  return {
    format: format as 0 | 1 | 2,
    division,
    bytes: rebuild(file, format, division, found),
    tracks: found.length,
    events,
  };
}

function findHeader(file: Uint8Array, notices: Notices): number {
  const view = new DataView(file.buffer, file.byteOffset, file.byteLength);
  // RIFF files ("RMID") and disk images put a header of their own before the MIDI file's.
  const last = Math.min(file.length - 4, 512);
  for (let at = 0; at <= last; at++) {
    if (view.getUint32(at) !== MTHD) continue;
    if (at > 0) {
      notices.add(
        "bytes-before-header",
        "byte 0",
        () => `${count(at, "byte")} before the MIDI header ${at === 1 ? "was" : "were"} skipped.`,
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

/** Some writers state a wrong track length; the end-of-track event and the next MTrk then show where the track ends. */
function nextChunk(view: DataView, end: number, scan: TrackScan, track: number, notices: Notices): number {
  const fits = end + 4 > view.byteLength || isChunkId(view.getUint32(end));
  if (fits || scan.endOfTrack === null) return end;
  if (scan.endOfTrack + 8 <= view.byteLength && view.getUint32(scan.endOfTrack) === MTRK) {
    notices.add(
      "track-length",
      `track ${track}`,
      (times) =>
        `${count(times, "track")} with a wrong length ${times === 1 ? "was" : "were"} read to the end-of-track event.`,
    );
    return scan.endOfTrack;
  }
  return end;
}

function isChunkId(id: number): boolean {
  for (let shift = 0; shift < 32; shift += 8) {
    const byte = (id >>> shift) & 0xff;
    if (byte < 0x20 || byte > 0x7e) return false;
  }
  return true;
}

function refuseTooMany(notes: number, events: number): void {
  if (notes > LIMITS.notes || events > LIMITS.midiEvents) {
    throw new Problem(
      "too-many-notes",
      `The file has more than ${notes > LIMITS.notes ? `${LIMITS.notes} notes` : `${LIMITS.midiEvents} events`}`,
      null,
      "Cut it into takes of a few minutes each.",
    );
  }
}

function rebuild(
  file: Uint8Array,
  format: number,
  division: number,
  tracks: readonly { from: number; scan: TrackScan }[],
): Uint8Array {
  const size = tracks.reduce((sum, { from, scan }) => sum + 8 + scan.end - from, 14);
  const bytes = new Uint8Array(size);
  const view = new DataView(bytes.buffer);
  view.setUint32(0, MTHD);
  view.setUint32(4, 6);
  view.setUint16(8, format);
  view.setUint16(10, tracks.length);
  view.setInt16(12, division);
  let at = 14;
  for (const { from, scan } of tracks) {
    view.setUint32(at, MTRK);
    view.setUint32(at + 4, scan.end - from);
    bytes.set(file.subarray(from, scan.end), at + 8);
    for (const meta of scan.silenced) bytes[at + 8 + meta - from] = 0x7f;
    at += 8 + scan.end - from;
  }
  return bytes;
}
