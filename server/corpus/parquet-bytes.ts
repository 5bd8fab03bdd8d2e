/**
 * Pieces of the Parquet format (https://parquet.apache.org/docs/file-format/): page headers in the compact protocol of
 * Thrift, and the hybrid of runs and packed bits (RLE) that levels and codes are written in.
 */

/** Bytes that grow as they are written. */
export class Bytes {
  #bytes: Uint8Array;
  #view: DataView;
  length = 0;

  constructor(room = 256) {
    this.#bytes = new Uint8Array(room);
    this.#view = new DataView(this.#bytes.buffer);
  }

  /** Makes room for more bytes; what is written afterwards must fit in. */
  grow(more: number): void {
    if (this.length + more <= this.#bytes.length) return;
    const larger = new Uint8Array(Math.max(2 * this.#bytes.length, this.length + more));
    larger.set(this.#bytes.subarray(0, this.length));
    this.#bytes = larger;
    this.#view = new DataView(larger.buffer);
  }

  byte(value: number): void {
    this.grow(1);
    this.#bytes[this.length++] = value;
  }

  /** An unsigned number, seven bits a byte. */
  varint(value: number): void {
    let left = value;
    while (left > 127) {
      this.byte((left & 127) | 128);
      left >>>= 7;
    }
    this.byte(left);
  }

  int32(value: number): void {
    this.grow(4);
    this.#view.setInt32(this.length, value, true);
    this.length += 4;
  }

  double(value: number): void {
    this.grow(8);
    this.#view.setFloat64(this.length, value, true);
    this.length += 8;
  }

  add(bytes: Uint8Array): void {
    this.grow(bytes.length);
    this.#bytes.set(bytes, this.length);
    this.length += bytes.length;
  }

  /** A text with its length before it. */
  text(value: string): void {
    // A character of UTF-16 takes three bytes of UTF-8 at most.
    this.grow(4 + 3 * value.length);
    const { written } = encoder.encodeInto(value, this.#bytes.subarray(this.length + 4));
    this.#view.setInt32(this.length, written, true);
    this.length += 4 + written;
  }

  /** What has been written; valid until more is. */
  whole(): Uint8Array {
    return this.#bytes.subarray(0, this.length);
  }
}

const encoder = new TextEncoder();

/** Bits that the numbers 0 to `largest` take. */
export function bitsFor(largest: number): number {
  return largest === 0 ? 0 : 32 - Math.clz32(largest);
}

/** A run of one value is written as such from this length on: values are packed in groups of eight. */
const GROUP = 8;

/**
 * Numbers of `width` bits (at most 24) as runs of equal ones and groups of eight packed side by side, low bits first.
 * As the format has it, only the very last group may hold more places than there are numbers.
 */
export function writeHybrid(into: Bytes, values: ArrayLike<number>, count: number, width: number): void {
  let at = 0;
  /** Where the numbers begin that go into packed groups. */
  let packedFrom = 0;
  while (at < count) {
    let end = at + 1;
    while (end < count && values[end] === values[at]) end++;
    // What is packed goes on to a whole number of groups, at the run's cost.
    const taken = (GROUP - ((at - packedFrom) % GROUP)) % GROUP;
    if (end - at - taken >= GROUP) {
      writePacked(into, values, packedFrom, at + taken, width);
      into.varint((end - at - taken) << 1);
      for (let bits = 0; bits < width; bits += 8) into.byte((values[at]! >>> bits) & 255);
      packedFrom = end;
    }
    at = end;
  }
  writePacked(into, values, packedFrom, count, width);
}

function writePacked(into: Bytes, values: ArrayLike<number>, from: number, to: number, width: number): void {
  if (to === from) return;
  const groups = Math.ceil((to - from) / GROUP);
  into.varint((groups << 1) | 1);
  into.grow(groups * width);
  let bits = 0;
  let held = 0;
  for (let i = from; i < from + groups * GROUP; i++) {
    bits |= (i < to ? values[i]! : 0) << held;
    held += width;
    while (held >= 8) {
      into.byte(bits & 255);
      bits >>>= 8;
      held -= 8;
    }
  }
}

export const ENCODING = { PLAIN: 0, RLE_DICTIONARY: 8 } as const;
const DATA_PAGE_V2 = 3;
const DICTIONARY_PAGE = 2;

/** Headings of fields in the compact protocol: how far on the field's number is, and its kind. */
const INT = 0x15;
const TRUE = 0x11;
const FALSE = 0x12;
const STRUCT_4_ON = 0x4c;
const STRUCT_5_ON = 0x5c;
const END = 0;

function field(into: Bytes, value: number): void {
  into.byte(INT);
  // Zigzag: a whole number from 0 on is written as its double.
  into.varint(value * 2);
}

export interface DataPage {
  /** Rows, or for lists their items and what stands for empty ones. */
  readonly values: number;
  readonly nulls: number;
  readonly rows: number;
  readonly encoding: number;
  readonly definitionBytes: number;
  readonly repetitionBytes: number;
  readonly packed: boolean;
}

export function writeDataPageHeader(into: Bytes, size: number, packedSize: number, page: DataPage): void {
  for (const value of [DATA_PAGE_V2, size, packedSize]) field(into, value);
  into.byte(STRUCT_5_ON);
  const { values, nulls, rows, encoding, definitionBytes, repetitionBytes } = page;
  for (const value of [values, nulls, rows, encoding, definitionBytes, repetitionBytes]) field(into, value);
  into.byte(page.packed ? TRUE : FALSE);
  into.byte(END);
  into.byte(END);
}

export function writeDictionaryHeader(into: Bytes, size: number, packedSize: number, values: number): void {
  for (const value of [DICTIONARY_PAGE, size, packedSize]) field(into, value);
  into.byte(STRUCT_4_ON);
  field(into, values);
  field(into, ENCODING.PLAIN);
  into.byte(END);
  into.byte(END);
}
