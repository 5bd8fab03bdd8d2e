/**
 * Rows of a table as UTF-8. A column has few values and many rows, so each value is turned into bytes once, and rows
 * are put together from bytes.
 */

export interface TextRows {
  readonly rows: number;
  /** What each row begins and ends with. */
  readonly ends: EncodedTexts;
  readonly columns: readonly TextColumn[];
}

export interface TextColumn {
  readonly texts: EncodedTexts;
  /** Which of the texts, for each row. */
  readonly codes: ArrayLike<number>;
}

/** Texts in bytes, one after the other, with `STEP` bytes of room behind them. */
export interface EncodedTexts {
  readonly bytes: DataView;
  /** Where each text begins, and after them where the last one ends. */
  readonly starts: Int32Array;
}

/**
 * Texts are copied so many bytes at once, and so a little further than they go: the next text is written over that.
 * Eight bytes travel as a number with a fraction. One of them alone would not come out as it went in, a value that is
 * no number; but low byte first its last byte is 7F or FF after one from F0 on, which no UTF-8 has.
 */
const STEP = 8;

/** Texts that are led by the same text, as they are gathered. */
export class TextsInBytes {
  readonly #before: Buffer;
  readonly #starts: Int32Array;
  #bytes: Buffer;
  #count = 0;
  #length = 0;

  /** @param room bytes that they will take, as far as that is known */
  constructor(before: string, count: number, room: number) {
    this.#before = Buffer.from(before);
    this.#starts = new Int32Array(count + 1);
    this.#bytes = Buffer.allocUnsafeSlow(room + STEP);
  }

  addBytes(from: Buffer, start: number, end: number): void {
    this.#begin(end - start);
    const into = this.#bytes;
    let at = this.#length;
    // Texts are short: to ask for a copy of each takes longer than to make it.
    for (let i = start; i < end; i++) into[at++] = from[i]!;
    this.#end(at);
  }

  addText(text: string): void {
    this.#begin(3 * text.length);
    this.#end(this.#length + this.#bytes.write(text, this.#length, "utf8"));
  }

  whole(): EncodedTexts {
    const { buffer, byteOffset, length } = this.#bytes;
    return { bytes: new DataView(buffer, byteOffset, length), starts: this.#starts };
  }

  /** Makes room for what leads a text and for so many bytes more, and writes the first. */
  #begin(more: number): void {
    const before = this.#before;
    const needed = this.#length + before.length + more + STEP;
    if (needed > this.#bytes.length) {
      const larger = Buffer.allocUnsafeSlow(2 * needed);
      this.#bytes.copy(larger, 0, 0, this.#length);
      this.#bytes = larger;
    }
    for (let i = 0; i < before.length; i++) this.#bytes[this.#length++] = before[i]!;
  }

  #end(at: number): void {
    this.#length = at;
    this.#starts[++this.#count] = at;
  }
}

export function encodeTexts(texts: readonly string[]): EncodedTexts {
  const room = texts.reduce((sum, text) => sum + 3 * text.length, 0);
  const into = new TextsInBytes("", texts.length, room);
  for (const text of texts) into.addText(text);
  return into.whole();
}

/** @returns the rows of all parts, one after the other */
export function encodeRows(parts: readonly TextRows[]): Uint8Array {
  const length = parts.reduce((sum, part) => sum + lengthOf(part), 0);
  // Every byte is written below.
  const bytes = Buffer.allocUnsafeSlow(length + STEP);
  const into = new DataView(bytes.buffer);
  let at = 0;
  for (const part of parts) at = writeRows(part, into, at);
  return bytes.subarray(0, length);
}

function lengthOf({ rows, ends, columns }: TextRows): number {
  let length = rows * ends.starts[2]!;
  for (const { texts, codes } of columns) {
    const { starts } = texts;
    for (let i = 0; i < rows; i++) length += starts[codes[i]! + 1]! - starts[codes[i]!]!;
  }
  return length;
}

function writeRows({ rows, ends, columns }: TextRows, into: DataView, from: number): number {
  let at = from;
  for (let i = 0; i < rows; i++) {
    at = copyText(ends, 0, into, at);
    for (let k = 0; k < columns.length; k++) {
      const { texts, codes } = columns[k]!;
      at = copyText(texts, codes[i]!, into, at);
    }
    at = copyText(ends, 1, into, at);
  }
  return at;
}

function copyText({ bytes, starts }: EncodedTexts, text: number, into: DataView, at: number): number {
  const start = starts[text]!;
  const length = starts[text + 1]! - start;
  for (let j = 0; j < length; j += STEP) into.setFloat64(at + j, bytes.getFloat64(start + j, true), true);
  return at + length;
}
