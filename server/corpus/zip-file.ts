/**
 * Reads a zip from disk, one file of it at a time, so that neither the zip nor what it unfolds to is in memory whole.
 * The format is that of PKWARE's APPNOTE 6.3.10, whose sections are named below.
 */
import { fstatSync, readSync } from "node:fs";
import { Readable } from "node:stream";
import { createInflateRaw, inflateRawSync } from "node:zlib";

/** A file of a zip, as its table of contents lists it. */
export interface ZipPart {
  readonly name: string;
  readonly locked: boolean;
  /** 0 stored, 8 deflated. */
  readonly method: number;
  /** Bytes in the zip, and unfolded, as stated. */
  readonly packed: number;
  readonly size: number;
  /** Where its own heading begins. */
  readonly offset: number;
}

const END = { mark: 0x06054b50, length: 22, mostComment: 65_535 };
const END_64 = { mark: 0x06064b50, length: 56 };
const LOCATOR_64 = { mark: 0x07064b50, length: 20 };
const LISTED = { mark: 0x02014b50, length: 46 };
const LOCAL = { mark: 0x04034b50, length: 30 };
/** Of the general purpose flags (4.4.4). */
const FLAGS = { locked: 1, utf8: 0x800 };
/** What stands where a number is too large for its field, and is in the extra field 1 instead (4.5.3). */
const ELSEWHERE = 0xffffffff;
/** Bytes that are read at once. */
const PIECE = 2 ** 20;
/** The longest table of contents that is read, in bytes: 20,000 names of some hundred letters. */
const MOST_LISTED = 16 * 2 ** 20;

/**
 * The table of contents (4.3.12). What is stated of a file may be a lie: `readPart` gives no more than `size`.
 *
 * @param file descriptor of the zip
 * @throws Error when it is damaged, with what is wrong
 */
export function listParts(file: number): ZipPart[] {
  const { at, length, count } = contentsOf(file);
  if (length > MOST_LISTED) throw new Error("its table of contents is too long");
  const list = bytesAt(file, at, length);
  const parts: ZipPart[] = [];
  for (let place = 0; place + LISTED.length <= list.length; ) {
    if (list.readUInt32LE(place) !== LISTED.mark) break;
    const nameEnd = place + LISTED.length + list.readUInt16LE(place + 28);
    const extraEnd = nameEnd + list.readUInt16LE(place + 30);
    if (extraEnd > list.length) throw new Error("its table of contents is cut off");
    const flags = list.readUInt16LE(place + 8);
    const name = list.subarray(place + LISTED.length, nameEnd);
    parts.push({
      name: name.toString((flags & FLAGS.utf8) === 0 ? "latin1" : "utf8"),
      locked: (flags & FLAGS.locked) !== 0,
      method: list.readUInt16LE(place + 10),
      ...largeNumbers(list.subarray(nameEnd, extraEnd), {
        size: list.readUInt32LE(place + 24),
        packed: list.readUInt32LE(place + 20),
        offset: list.readUInt32LE(place + 42),
      }),
    });
    place = extraEnd + list.readUInt16LE(place + 32);
  }
  if (parts.length !== count) throw new Error("its table of contents is broken");
  return parts;
}

/**
 * Unfolds one file (4.3.7), a piece at a time.
 *
 * @returns at most as many bytes as it is said to have
 * @throws Error when it is damaged, with what is wrong
 */
export async function* readPart(file: number, part: ZipPart): AsyncGenerator<Uint8Array> {
  const { name, locked, method, packed, size, offset } = part;
  if (locked) throw new Error(`"${name}" is locked by a password`);
  const heading = bytesAt(file, offset, LOCAL.length);
  if (heading.readUInt32LE(0) !== LOCAL.mark) throw new Error(`"${name}" is not where it should be`);
  const from = offset + LOCAL.length + heading.readUInt16LE(26) + heading.readUInt16LE(28);
  if (method === 0) yield* stored(file, from, Math.min(packed, size), PIECE);
  else if (method !== 8) throw new Error(`"${name}" is packed in a way that is not known (${method})`);
  // An empty file has no bytes to be unfolded to, and the least bound is one.
  else if (size <= PIECE && packed <= PIECE) {
    yield inflateRawSync(bytesAt(file, from, packed), { maxOutputLength: Math.max(1, size) });
  } else yield* inflated(file, from, part);
}

async function* inflated(
  file: number,
  from: number,
  { name, packed, size }: ZipPart,
): AsyncGenerator<Uint8Array> {
  // What the reader says is wrong goes on to whoever waits for the pieces.
  const sent = Readable.from(stored(file, from, packed, 2 ** 16));
  const unfolding = sent.pipe(createInflateRaw({ chunkSize: 2 ** 16 }));
  sent.once("error", (error) => unfolding.destroy(error));
  let all = 0;
  try {
    for await (const piece of unfolding as AsyncIterable<Buffer>) {
      all += piece.length;
      if (all > size) throw new Error(`"${name}" unfolds to more than it says`);
      yield piece;
    }
  } finally {
    sent.destroy();
  }
}

function* stored(file: number, from: number, length: number, piece: number): Generator<Buffer> {
  for (let at = 0; at < length; at += piece) yield bytesAt(file, from + at, Math.min(piece, length - at));
}

interface Contents {
  readonly at: number;
  readonly length: number;
  /** Number of files in it. */
  readonly count: number;
}

/** Where the table of contents stands: the end record (4.3.16) is looked for behind a comment, and its larger form (4.3.14). */
function contentsOf(file: number): Contents {
  const { size } = fstatSync(file);
  const start = Math.max(0, size - END.length - END.mostComment);
  const tail = bytesAt(file, start, size - start);
  let end = tail.length - END.length;
  while (end >= 0 && tail.readUInt32LE(end) !== END.mark) end--;
  if (end < 0) throw new Error("its table of contents is missing; it may be cut off");
  const locator = end - LOCATOR_64.length;
  if (locator >= 0 && tail.readUInt32LE(locator) === LOCATOR_64.mark) {
    const record = bytesAt(file, Number(tail.readBigUInt64LE(locator + 8)), END_64.length);
    if (record.readUInt32LE(0) !== END_64.mark) throw new Error("its table of contents is broken");
    const number = (field: number) => Number(record.readBigUInt64LE(field));
    return { at: number(48), length: number(40), count: number(32) };
  }
  return {
    at: tail.readUInt32LE(end + 16),
    length: tail.readUInt32LE(end + 12),
    count: tail.readUInt16LE(end + 10),
  };
}

type Numbers = Pick<ZipPart, "size" | "packed" | "offset">;

/** Numbers that did not fit stand in the extra field 1, in this order, and only those. */
function largeNumbers(extra: Buffer, numbers: Numbers): Numbers {
  for (let at = 0; at + 4 <= extra.length; at += 4 + extra.readUInt16LE(at + 2)) {
    if (extra.readUInt16LE(at) !== 1) continue;
    let next = at + 4;
    const large = (number: number) => {
      if (number !== ELSEWHERE || next + 8 > extra.length) return number;
      next += 8;
      return Number(extra.readBigUInt64LE(next - 8));
    };
    const size = large(numbers.size);
    const packed = large(numbers.packed);
    return { size, packed, offset: large(numbers.offset) };
  }
  return numbers;
}

function bytesAt(file: number, at: number, length: number): Buffer {
  // What is not in the file is not made room for.
  if (at + length > fstatSync(file).size) throw new Error("it is cut off");
  const bytes = Buffer.allocUnsafeSlow(length);
  for (let done = 0; done < length; ) {
    const read = readSync(file, bytes, done, length - done, at + done);
    if (read === 0) throw new Error("it is cut off");
    done += read;
  }
  return bytes;
}
