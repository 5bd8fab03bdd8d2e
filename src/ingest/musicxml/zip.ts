import { Inflate } from "fflate";
import { Problem } from "../../take/index.ts";
import { LIMITS } from "../limits.ts";

/** A file inside a zip archive, as its table of contents lists it. */
export interface ZipEntry {
  readonly name: string;
  /** 0 stored, 8 deflated. */
  readonly method: number;
  readonly packed: number;
  /** Bytes when unpacked, as stated. */
  readonly size: number;
  readonly offset: number;
}

const TODO = "Export it again as MusicXML, compressed (.mxl) or not (.musicxml).";
const END = 0x06054b50;
const LISTED = 0x02014b50;
const LOCAL = 0x04034b50;
/** Packed bytes that are unpacked at a time: at most a thousand times as many come out before the limit is checked. */
const SLICE = 1_024;

/**
 * Reads the table of contents of a zip archive (PKWARE APPNOTE 6.3, sections 4.3.12 and 4.3.16). A stated size
 * that is too large is believed, a small one is not: an archive may lie about them.
 *
 * @throws Problem when it is damaged or has too many files.
 */
export function listEntries(bytes: Uint8Array): ZipEntry[] {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  let end = bytes.length - 22;
  // A comment of up to 65,535 bytes may stand behind the end record.
  const first = Math.max(0, end - 65_535);
  while (end >= first && view.getUint32(end, true) !== END) end--;
  if (end < first) throw damaged("its table of contents is missing; it may be cut off");
  const count = view.getUint16(end + 10, true);
  if (count > LIMITS.packedFiles) throw tooMany();
  const entries: ZipEntry[] = [];
  let at = view.getUint32(end + 16, true);
  for (let i = 0; i < count; i++) {
    if (at + 46 > bytes.length || view.getUint32(at, true) !== LISTED)
      throw damaged("its table of contents is broken");
    const nameLength = view.getUint16(at + 28, true);
    const extra = view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
    entries.push({
      name: new TextDecoder().decode(bytes.subarray(at + 46, at + 46 + nameLength)),
      method: view.getUint16(at + 10, true),
      packed: view.getUint32(at + 20, true),
      size: view.getUint32(at + 24, true),
      offset: view.getUint32(at + 42, true),
    });
    at += 46 + nameLength + extra;
  }
  return entries;
}

/**
 * Unpacks one file of the archive, slice by slice, and stops when more than `limit` bytes come out.
 *
 * @throws Problem when it is damaged or too large.
 */
export function readEntry(bytes: Uint8Array, entry: ZipEntry, limit: number): Uint8Array {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const { offset, packed, size: stated, method, name } = entry;
  if (stated > limit) throw tooLarge(name, limit);
  if (offset + 30 > bytes.length || view.getUint32(offset, true) !== LOCAL)
    throw damaged(`"${name}" is not where it should be`);
  const from = offset + 30 + view.getUint16(offset + 26, true) + view.getUint16(offset + 28, true);
  if (from + packed > bytes.length) throw damaged(`"${name}" is cut off`);
  const data = bytes.subarray(from, from + packed);
  if (method === 0) {
    if (data.length > limit) throw tooLarge(name, limit);
    return data;
  }
  if (method !== 8) throw damaged(`"${name}" is packed by a method that MusicXML does not use`);
  const pieces: Uint8Array[] = [];
  let size = 0;
  let done = false;
  const inflate = new Inflate((piece, final) => {
    size += piece.length;
    if (size > limit) throw tooLarge(name, limit);
    pieces.push(piece);
    done ||= final;
  });
  try {
    for (let at = 0; at < data.length; at += SLICE) {
      inflate.push(data.subarray(at, at + SLICE), at + SLICE >= data.length);
    }
  } catch (error) {
    if (error instanceof Problem) throw error;
    throw damaged(`"${name}" cannot be unpacked (${error instanceof Error ? error.message : error})`);
  }
  if (!done) throw damaged(`"${name}" is cut off`);
  return joined(pieces, size);
}

function joined(pieces: readonly Uint8Array[], size: number): Uint8Array {
  const whole = new Uint8Array(size);
  let at = 0;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.length;
  }
  return whole;
}

function damaged(what: string): Problem {
  return new Problem("damaged-archive", `The compressed file is damaged: ${what.slice(0, 200)}`, null, TODO);
}

function tooLarge(name: string, limit: number): Problem {
  return new Problem(
    "file-too-large",
    `"${name.slice(0, 80)}" in the compressed file has more than ${limit} bytes`,
    null,
    "Cut it into takes of a few minutes each.",
  );
}

function tooMany(): Problem {
  return new Problem(
    "file-too-large",
    `The compressed file holds more than ${LIMITS.packedFiles} files`,
    null,
    TODO,
  );
}
