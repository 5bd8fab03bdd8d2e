/**
 * The values of a stored block as they stand in its heading: pieces of JSON, which text tables take over byte for byte.
 * Most are never turned into values, which takes longer than everything else of a text table.
 */
import { type CodeKind, type Codes, codesOf, inflateBlock } from "./block.ts";

export interface TokenColumn {
  /** The heading of the block. */
  readonly bytes: Buffer;
  /** Where each value begins and ends in it, one after the other. */
  readonly places: Int32Array;
  /** Which value, for each row. */
  readonly codes: Codes;
}

export interface TokenBlock {
  readonly rows: number;
  readonly columns: readonly TokenColumn[];
}

const [QUOTE, COMMA, BACKSLASH, CLOSED] = [...'",\\]'].map((sign) => sign.charCodeAt(0)) as [
  number,
  number,
  number,
  number,
];
const VALUES = '{"values":[';
const CODES = '],"codes":"';
/** @param packed as `packBlock` writes it, with the fields of its heading in that order */
export function openTokens(packed: Uint8Array): TokenBlock {
  const { heading, codes } = inflateBlock(packed);
  const rows = Number(/^\{"rows":(\d+)/.exec(heading.toString("latin1", 0, 32))![1]);
  const columns: TokenColumn[] = [];
  let from = 0;
  for (let at = heading.indexOf(VALUES); at >= 0; at = heading.indexOf(VALUES, at)) {
    const places: number[] = [];
    at = readValues(heading, at + VALUES.length, places);
    const kindAt = at + CODES.length;
    const kind = heading.toString("latin1", kindAt, heading.indexOf(QUOTE, kindAt)) as CodeKind;
    const read = codesOf(kind, rows, codes, from);
    from = read.end;
    columns.push({ bytes: heading, places: Int32Array.from(places), codes: read.codes });
  }
  return { rows, columns };
}

/** Values up to the end of their list; none of them is a list or an object. @returns where the list is closed */
function readValues(bytes: Buffer, from: number, places: number[]): number {
  let at = from;
  while (bytes[at] !== CLOSED) {
    const begin = at;
    if (bytes[at] === QUOTE) {
      at++;
      while (bytes[at] !== QUOTE) at += bytes[at] === BACKSLASH ? 2 : 1;
      at++;
    } else while (bytes[at] !== COMMA && bytes[at] !== CLOSED) at++;
    places.push(begin, at);
    if (bytes[at] === COMMA) at++;
  }
  return at;
}
