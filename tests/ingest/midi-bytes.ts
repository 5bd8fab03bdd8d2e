/** Builds MIDI files byte by byte for tests, without any code of the program. */

export function hex(text: string): Uint8Array {
  return Uint8Array.from(text.trim().split(/\s+/), (byte) => Number.parseInt(byte, 16));
}

export function ascii(text: string): number[] {
  return [...text].map((letter) => letter.charCodeAt(0));
}

/** A meta event at a delta time below 128: type and data. */
export function metaEvent(type: number, data: readonly number[], delta = 0): number[] {
  return [delta, 0xff, type, data.length, ...data];
}

export const END_OF_TRACK: readonly number[] = [0, 0xff, 0x2f, 0];

export function trackChunk(...events: readonly (readonly number[])[]): number[] {
  const data = events.flat();
  return [...ascii("MTrk"), ...long(data.length), ...data];
}

export function midiFile(
  format: number,
  division: number,
  ...tracks: readonly (readonly number[])[]
): Uint8Array {
  const header = [
    0,
    format,
    tracks.length >> 8,
    tracks.length & 0xff,
    (division >> 8) & 0xff,
    division & 0xff,
  ];
  return Uint8Array.from([...ascii("MThd"), ...long(6), ...header, ...tracks.flat()]);
}

function long(value: number): number[] {
  return [value >>> 24, (value >> 16) & 0xff, (value >> 8) & 0xff, value & 0xff];
}
