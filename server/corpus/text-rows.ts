/**
 * Rows of a table as UTF-8. A column has few values and many rows, so each value is turned into bytes once, and rows
 * are put together from bytes.
 */

export interface TextRows {
  readonly rows: number;
  /** What each row begins and ends with. */
  readonly before: string;
  readonly after: string;
  readonly columns: readonly {
    readonly texts: readonly string[];
    /** Place in `texts` for each row. */
    readonly codes: Uint32Array;
  }[];
}

/** @returns the rows of all parts, one after the other */
export function encodeRows(parts: readonly TextRows[]): Uint8Array {
  const encoded = parts.map(encode);
  const length = encoded.reduce((sum, part) => sum + part.length, 0);
  // Every byte is written below.
  const bytes = Buffer.allocUnsafeSlow(length + STEP);
  const into = new DataView(bytes.buffer);
  let at = 0;
  for (const part of encoded) at = writeRows(part, into, at);
  return bytes.subarray(0, length);
}

/**
 * Texts are copied so many bytes at once, and so a little further than they go: the next text is written over that.
 */
const STEP = 4;

/** Texts in bytes, one after the other, with `STEP` bytes of room behind them. */
interface EncodedTexts {
  readonly bytes: DataView;
  /** Where each text begins, and after them where the last one ends. */
  readonly starts: Int32Array;
}

interface EncodedPart {
  readonly rows: number;
  /** What rows begin and end with. */
  readonly ends: EncodedTexts;
  readonly columns: readonly (EncodedTexts & { readonly codes: Uint32Array })[];
  /** Bytes of all rows. */
  readonly length: number;
}

function encode({ rows, before, after, columns }: TextRows): EncodedPart {
  const ends = encodeTexts([before, after]);
  const encoded = columns.map(({ texts, codes }) => ({ ...encodeTexts(texts), codes }));
  let length = rows * ends.starts[2]!;
  for (const { starts, codes } of encoded) {
    for (let i = 0; i < rows; i++) length += starts[codes[i]! + 1]! - starts[codes[i]!]!;
  }
  return { rows, ends, columns: encoded, length };
}

function encodeTexts(texts: readonly string[]): EncodedTexts {
  const joined = texts.join("");
  const length = Buffer.byteLength(joined);
  const bytes = Buffer.alloc(length + STEP);
  bytes.write(joined, "utf8");
  const ascii = length === joined.length;
  const starts = new Int32Array(texts.length + 1);
  for (let k = 0; k < texts.length; k++) {
    starts[k + 1] = starts[k]! + (ascii ? texts[k]!.length : Buffer.byteLength(texts[k]!));
  }
  return { bytes: new DataView(bytes.buffer, bytes.byteOffset, bytes.length), starts };
}

function writeRows({ rows, ends, columns }: EncodedPart, into: DataView, from: number): number {
  let at = from;
  for (let i = 0; i < rows; i++) {
    at = copyText(ends, 0, into, at);
    for (let k = 0; k < columns.length; k++) at = copyText(columns[k]!, columns[k]!.codes[i]!, into, at);
    at = copyText(ends, 1, into, at);
  }
  return at;
}

function copyText({ bytes, starts }: EncodedTexts, text: number, into: DataView, at: number): number {
  const start = starts[text]!;
  const length = starts[text + 1]! - start;
  for (let j = 0; j < length; j += STEP) into.setUint32(at + j, bytes.getUint32(start + j));
  return at + length;
}
