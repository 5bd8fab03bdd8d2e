/** Ticks to a quarter note: about a millisecond each at a middle tempo, as sequencers count. [practice] */
export const TICKS_PER_QUARTER = 480;

/** An event of a Standard MIDI File: its bytes behind the delta time, and its absolute tick. */
export interface TimedBytes {
  readonly tick: number;
  /** At one tick lower comes first: ends before marks before starts. */
  readonly order: number;
  readonly bytes: readonly number[];
}

/** Types of meta events (SMF 1.0). */
export const META = {
  text: 0x01,
  copyright: 0x02,
  name: 0x03,
  lyric: 0x05,
  marker: 0x06,
  cue: 0x07,
  tempo: 0x51,
  meter: 0x58,
  key: 0x59,
} as const;

/**
 * A Standard MIDI File of format 1 (SMF 1.0).
 *
 * The bytes are laid here because the libraries' writer copies the track for every delta time of two bytes: 5,000
 * notes take it 1.4 s, 20,000 a minute, and a take may have more. Files that people play along with are short and are
 * written by a library (`play-midi.ts`).
 *
 * @param ticksPerQuarter 1 to 32,767.
 */
export function midiFileBytes(
  tracks: readonly (readonly TimedBytes[])[],
  ticksPerQuarter: number,
): Uint8Array {
  const chunks = tracks.map(trackBytes);
  const bytes = new Uint8Array(chunks.reduce((sum, chunk) => sum + 8 + chunk.length, 14));
  const view = new DataView(bytes.buffer);
  bytes.set(MTHD);
  view.setUint32(4, 6);
  view.setUint16(8, 1);
  view.setUint16(10, tracks.length);
  view.setUint16(12, ticksPerQuarter);
  let at = 14;
  for (const chunk of chunks) {
    bytes.set(MTRK, at);
    view.setUint32(at + 4, chunk.length);
    bytes.set(chunk, at + 8);
    at += 8 + chunk.length;
  }
  return bytes;
}

/** A meta event of a type with its data. */
export function metaBytes(type: number, data: readonly number[]): number[] {
  return [0xff, type, ...quantity(data.length), ...data];
}

/** The tempo, in microseconds to a quarter note; at most 24 bits. */
export function tempoBytes(microseconds: number): number[] {
  const micros = Math.max(1, Math.min(0xffffff, microseconds));
  return metaBytes(META.tempo, [micros >> 16, (micros >> 8) & 0xff, micros & 0xff]);
}

/** A meta event that carries text, as UTF-8, which readers know by its form. */
export function textBytes(type: number, text: string): number[] {
  return metaBytes(type, [...new TextEncoder().encode(text)]);
}

const MTHD = [0x4d, 0x54, 0x68, 0x64];
const MTRK = [0x4d, 0x54, 0x72, 0x6b];
const END_OF_TRACK = [0x00, 0xff, 0x2f, 0x00];

function trackBytes(events: readonly TimedBytes[]): number[] {
  const bytes: number[] = [];
  let last = 0;
  for (const { tick, bytes: event } of [...events].sort((a, b) => a.tick - b.tick || a.order - b.order)) {
    for (const byte of quantity(tick - last)) bytes.push(byte);
    for (const byte of event) bytes.push(byte);
    last = tick;
  }
  for (const byte of END_OF_TRACK) bytes.push(byte);
  return bytes;
}

/** A variable-length quantity: seven bits a byte, the high bit on all but the last. */
function quantity(value: number): number[] {
  const bytes = [value & 0x7f];
  for (let rest = value >>> 7; rest > 0; rest >>>= 7) bytes.unshift((rest & 0x7f) | 0x80);
  return bytes;
}
