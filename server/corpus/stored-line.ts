/**
 * A solo as a block of columns: what searching a corpus needs of each note, in a fixed layout that opens without
 * parsing. Little-endian: count (uint32), then the columns one after the other.
 */
import type { Analysis } from "../../src/account.ts";
import { DEGREES, type Degree } from "../../src/chart/index.ts";
import { packLine } from "../../src/motif/index.ts";
import { fifthsOf } from "../../src/pitch/index.ts";
import { type Finger, melodicLine } from "../../src/take/index.ts";

/** One note of a line, as far as a search looks at it. */
export interface LineRow {
  readonly id: string;
  readonly pitch: number;
  /** Seconds. */
  readonly onset: number;
  readonly duration: number;
  /** Quarter-note beats; null in rubato. */
  readonly position: number | null;
  readonly chorus: number;
  readonly bar: number;
  readonly beat: number | null;
  readonly degree: Degree | null;
  readonly finger: Finger | null;
  /** Place of its name on the line of fifths; null in lines that were stored before they had names. */
  readonly fifths: number | null;
}

const NO_DEGREE = 255;
const UNNAMED_BYTES = 4 + 4 + 4 + 4 + 4 + 2 + 2 + 1 + 1 + 1;
/** With the place of its name on the line of fifths. */
const BYTES_A_NOTE = UNNAMED_BYTES + 1;

export function encodeLine(analysis: Analysis): Uint8Array {
  const solo = analysis.notes.filter((note) => note.solo);
  const n = solo.length;
  const bytes = new Uint8Array(4 + n * BYTES_A_NOTE);
  const view = new DataView(bytes.buffer);
  view.setUint32(0, n, true);
  const at = columnsOf(n);
  solo.forEach((note, i) => {
    view.setUint32(at.id + 4 * i, Number(note.id.slice(1)), true);
    view.setFloat32(at.onset + 4 * i, note.onset, true);
    view.setFloat32(at.duration + 4 * i, note.duration, true);
    view.setFloat32(at.position + 4 * i, note.position ?? Number.NaN, true);
    view.setFloat32(at.beat + 4 * i, note.beat ?? Number.NaN, true);
    view.setInt16(at.bar + 2 * i, note.bar, true);
    view.setUint16(at.chorus + 2 * i, note.chorus, true);
    view.setUint8(at.pitch + i, note.pitch);
    view.setUint8(at.degree + i, note.degree === null ? NO_DEGREE : DEGREES.indexOf(note.degree));
    view.setUint8(at.finger + i, note.finger ?? 0);
    view.setInt8(at.fifths + i, fifthsOf(note.spelling));
  });
  return bytes;
}

export function decodeLine(bytes: Uint8Array): LineRow[] {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const n = view.getUint32(0, true);
  const at = columnsOf(n);
  const named = bytes.byteLength === 4 + n * BYTES_A_NOTE;
  return Array.from({ length: n }, (_, i) => {
    const position = view.getFloat32(at.position + 4 * i, true);
    const beat = view.getFloat32(at.beat + 4 * i, true);
    return {
      id: `n${view.getUint32(at.id + 4 * i, true)}`,
      pitch: view.getUint8(at.pitch + i),
      onset: view.getFloat32(at.onset + 4 * i, true),
      duration: view.getFloat32(at.duration + 4 * i, true),
      position: Number.isNaN(position) ? null : position,
      chorus: view.getUint16(at.chorus + 2 * i, true),
      bar: view.getInt16(at.bar + 2 * i, true),
      beat: Number.isNaN(beat) ? null : beat,
      degree: DEGREES[view.getUint8(at.degree + i)] ?? null,
      finger: (view.getUint8(at.finger + i) || null) as Finger | null,
      fifths: named ? view.getInt8(at.fifths + i) : null,
    };
  });
}

/** A stored line as a search reads it. */
export function packStored(bytes: Uint8Array): Uint8Array {
  return packLine(melodicLine(decodeLine(bytes)).map((step) => step.note));
}

function columnsOf(n: number) {
  const id = 4;
  const onset = id + 4 * n;
  const duration = onset + 4 * n;
  const position = duration + 4 * n;
  const beat = position + 4 * n;
  const bar = beat + 4 * n;
  const chorus = bar + 2 * n;
  const pitch = chorus + 2 * n;
  const degree = pitch + n;
  const finger = degree + n;
  return { id, onset, duration, position, beat, bar, chorus, pitch, degree, finger, fifths: finger + n };
}
