/**
 * A column of one row group as Parquet has it. What is stored as values and codes goes into the file as a dictionary
 * and codes: each value is looked at once, and not once a row.
 */
import { gzipSync } from "node:zlib";
import type { ParquetWriter } from "hyparquet-writer";
import type { Cell, Column } from "../../src/export/index.ts";
import {
  Bytes,
  bitsFor,
  ENCODING,
  writeDataPageHeader,
  writeDictionaryHeader,
  writeHybrid,
} from "./parquet-bytes.ts";

export type ColumnType = Column<never>["type"];
export type ColumnChunk = ParquetWriter["row_groups"][number]["columns"][number];

/** A column of a row group: different values, and for each row which of them it has. */
export interface CodedColumn {
  readonly name: string;
  readonly type: ColumnType;
  /** None twice. Lists are given as lists of texts, dates as days since 1970. */
  readonly values: readonly (Cell | readonly string[])[];
  /** Place in `values` for each row. */
  readonly codes: ArrayLike<number>;
  /** Least and greatest value for readers that skip groups. */
  readonly statistics: boolean;
}

/** @returns the column's pages, and what the footer says of them, counted from the column's own first byte */
export function encodeColumn(column: CodedColumn): {
  readonly bytes: Uint8Array;
  readonly chunk: ColumnChunk;
} {
  const laid = column.type === "list" ? laidLists(column) : laidFlat(column);
  const into = new Bytes(1024);
  const header = new Bytes();
  let size = 0;
  // A value a row makes no dictionary: nothing would be said twice.
  const asDictionary =
    column.type !== "boolean" && laid.values.length > 0 && 2 * laid.values.length <= laid.codes.length;
  if (asDictionary) {
    const plain = plainBytes(column.type, laid.values, Int32Array.from(laid.values.keys()));
    const packed = pack(plain);
    writeDictionaryHeader(header, plain.length, packed.length, laid.values.length);
    into.add(header.whole());
    into.add(packed);
    size += header.length + plain.length;
  }
  const dataAt = into.length;
  const page = asDictionary ? codesPage(laid) : plainBytes(column.type, laid.values, laid.codes);
  const levels = levelBytes(laid);
  const isPacked = page.length > 0;
  const packed = isPacked ? pack(page) : page;
  const written = new Bytes();
  writeDataPageHeader(written, levels.length + page.length, levels.length + packed.length, {
    values: laid.definition.length,
    nulls: laid.definition.length - laid.codes.length,
    rows: column.codes.length,
    encoding: asDictionary ? ENCODING.RLE_DICTIONARY : ENCODING.PLAIN,
    definitionBytes: levels.definitionBytes,
    repetitionBytes: levels.repetitionBytes,
    packed: isPacked,
  });
  for (const part of [written.whole(), levels.bytes, packed]) into.add(part);
  size += written.length + levels.length + page.length;
  return {
    bytes: into.whole(),
    chunk: {
      file_offset: 0n,
      meta_data: {
        type: PHYSICAL[column.type],
        encodings: asDictionary ? ["PLAIN", "RLE", "RLE_DICTIONARY"] : ["PLAIN", "RLE"],
        path_in_schema: column.type === "list" ? [column.name, "list", "element"] : [column.name],
        codec: "GZIP",
        num_values: BigInt(laid.definition.length),
        total_uncompressed_size: BigInt(size),
        total_compressed_size: BigInt(into.length),
        data_page_offset: BigInt(dataAt),
        ...(asDictionary ? { dictionary_page_offset: 0n } : {}),
        ...(column.statistics ? { statistics: statisticsOf(column) } : {}),
      },
    },
  };
}

/** Column types of ours as the format's physical types. */
const PHYSICAL = {
  text: "BYTE_ARRAY",
  integer: "INT32",
  number: "DOUBLE",
  boolean: "BOOLEAN",
  date: "INT32",
  list: "BYTE_ARRAY",
} as const satisfies Record<ColumnType, string>;

type Value = string | number | boolean;

/** A column as it is laid into pages. */
interface Laid {
  readonly values: readonly Value[];
  /** Places in `values` of all that is there. */
  readonly codes: Int32Array;
  /** How much of each row, or item, is there. */
  readonly definition: Uint8Array;
  /** Level of a value that is there. */
  readonly most: number;
  /** 1 for an item that goes on with the list before it; null where there are no lists. */
  readonly repetition: Uint8Array | null;
}

function laidFlat({ values, codes }: CodedColumn): Laid {
  const missing = values.indexOf(null);
  const rows = codes.length;
  const definition = new Uint8Array(rows);
  if (missing < 0) {
    definition.fill(1);
    return {
      values: values as Value[],
      codes: Int32Array.from(codes),
      definition,
      most: 1,
      repetition: null,
    };
  }
  const there = new Int32Array(rows);
  let count = 0;
  for (let i = 0; i < rows; i++) {
    const code = codes[i]!;
    if (code === missing) continue;
    definition[i] = 1;
    there[count++] = code > missing ? code - 1 : code;
  }
  return {
    values: values.filter((value) => value !== null) as Value[],
    codes: there.subarray(0, count),
    definition,
    most: 1,
    repetition: null,
  };
}

/** Of a list in three levels: 0 is no list, 1 an empty one, 3 an item. */
const LIST_LEVEL = { none: 0, empty: 1, item: 3 } as const;

function laidLists({ values, codes }: CodedColumn): Laid {
  const places = new Map<string, number>();
  const lists = values.map((list) =>
    (list as readonly string[] | null)?.map((item) => placeOf(item, places)),
  );
  let length = 0;
  for (let i = 0; i < codes.length; i++) length += Math.max(1, lists[codes[i]!]?.length ?? 1);
  const definition = new Uint8Array(length);
  const repetition = new Uint8Array(length);
  const there = new Int32Array(length);
  let at = 0;
  let count = 0;
  for (let i = 0; i < codes.length; i++) {
    const list = lists[codes[i]!];
    if (list === undefined || list.length === 0) {
      definition[at++] = list === undefined ? LIST_LEVEL.none : LIST_LEVEL.empty;
      continue;
    }
    for (let j = 0; j < list.length; j++) {
      repetition[at] = j === 0 ? 0 : 1;
      definition[at++] = LIST_LEVEL.item;
      there[count++] = list[j]!;
    }
  }
  return {
    values: [...places.keys()],
    codes: there.subarray(0, count),
    definition,
    most: LIST_LEVEL.item,
    repetition,
  };
}

/** The place of a key; one that is new takes the next. */
export function placeOf<Key>(key: Key, places: Map<Key, number>, next = places.size): number {
  const known = places.get(key);
  if (known !== undefined) return known;
  places.set(key, next);
  return next;
}

function levelBytes({ definition, most, repetition }: Laid) {
  const into = new Bytes();
  if (repetition !== null) writeHybrid(into, repetition, repetition.length, 1);
  const repetitionBytes = into.length;
  writeHybrid(into, definition, definition.length, bitsFor(most));
  return {
    bytes: into.whole(),
    length: into.length,
    repetitionBytes,
    definitionBytes: into.length - repetitionBytes,
  };
}

function codesPage({ values, codes }: Laid): Uint8Array {
  const width = bitsFor(values.length - 1);
  const into = new Bytes(codes.length);
  into.byte(width);
  writeHybrid(into, codes, codes.length, width);
  return into.whole();
}

/** The values that the codes name, one after the other. */
function plainBytes(type: ColumnType, values: readonly Value[], codes: Int32Array): Uint8Array {
  const into = new Bytes(8 * codes.length);
  switch (PHYSICAL[type]) {
    case "DOUBLE":
      for (let i = 0; i < codes.length; i++) into.double(values[codes[i]!] as number);
      break;
    case "INT32":
      for (let i = 0; i < codes.length; i++) into.int32(values[codes[i]!] as number);
      break;
    case "BYTE_ARRAY":
      for (let i = 0; i < codes.length; i++) into.text(values[codes[i]!] as string);
      break;
    case "BOOLEAN":
      for (let i = 0; i < codes.length; i += 8) {
        let bits = 0;
        for (let j = i; j < Math.min(i + 8, codes.length); j++) {
          if (values[codes[j]!] === true) bits |= 1 << (j - i);
        }
        into.byte(bits);
      }
  }
  return into.whole();
}

/** The least work: codes and numbers become a tenth shorter with more of it, and take twice as long. */
function pack(bytes: Uint8Array): Uint8Array {
  return gzipSync(bytes, { level: 1 });
}

function statisticsOf({ values, codes }: CodedColumn) {
  const missing = values.indexOf(null);
  let nulls = 0n;
  if (missing >= 0) for (let i = 0; i < codes.length; i++) if (codes[i] === missing) nulls++;
  const there = (values.filter((value) => value !== null) as Value[]).sort(inOrder);
  const [least, greatest] = [there[0], there.at(-1)];
  const ends = least === undefined || greatest === undefined ? {} : { min_value: least, max_value: greatest };
  return { ...ends, null_count: nulls };
}

/** Texts stand in the order of their bytes, as the format wants it. */
function inOrder(a: Value, b: Value): number {
  if (typeof a === "string" && typeof b === "string") return Buffer.compare(Buffer.from(a), Buffer.from(b));
  return Number(a) - Number(b);
}
