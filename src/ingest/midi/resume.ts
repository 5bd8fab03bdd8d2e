/** Where the events of a damaged track can be read again. */

/** Whole events in a row that no chance stretch of bytes has: each narrows it by a factor of two at least. */
const ENOUGH = 4;
const MTRK = [0x4d, 0x54, 0x72, 0x6b];

/**
 * Where reading goes on behind an event that is not whole: the place of the next delta time; -1 where there is none.
 * If the event's length is known, what follows it is tried first, so that no time is lost; else the next status byte
 * behind a data byte from which events follow each other.
 *
 * @param from Start of the event that is not whole.
 * @param behind Where the next event would begin if only the data of this one were damaged, or -1.
 * @param running Status byte that holds there.
 */
export function resumeAt(
  file: Uint8Array,
  from: number,
  end: number,
  behind: number,
  running: number,
): number {
  if (behind > from && isChain(file, behind, end, running)) return behind;
  for (let at = from + 1; at + 1 < end; at++) {
    if (MTRK.every((letter, i) => file[at + i] === letter)) return -1;
    const status = file[at]!;
    if (status < 0x80 || status >= 0xf0 || file[at - 1]! >= 0x80) continue;
    if (isChain(file, at - 1, end, -1)) return at - 1;
  }
  return -1;
}

/** Whether events with their delta times follow each other from there, or reach the end of the track. */
function isChain(file: Uint8Array, from: number, end: number, running: number): boolean {
  let at = from;
  let status = running;
  for (let events = 0; events < ENOUGH; events++) {
    const delta = quantityEnd(file, at, end);
    if (delta < 0 || delta >= end) return false;
    at = delta;
    const first = file[at]!;
    if (first === 0xff && file[at + 1] === 0x2f) return events > 0;
    if (first >= 0xf0) {
      const length = first === 0xff ? at + 2 : at + 1;
      const data = first === 0xff || first === 0xf0 || first === 0xf7 ? quantityEnd(file, length, end) : -1;
      if (data < 0) return false;
      let size = 0;
      for (let i = length; i < data; i++) size = (size << 7) | (file[i]! & 0x7f);
      at = data + size;
    } else {
      if (first >= 0x80) {
        status = first;
        at++;
      }
      if (status < 0) return false;
      const wanted = status >> 4 === 0xc || status >> 4 === 0xd ? 1 : 2;
      for (const last = at + wanted; at < last; at++) if (at >= end || file[at]! >= 0x80) return false;
    }
    if (at > end) return false;
    if (at === end) return events > 0;
  }
  return true;
}

/** One after the variable-length quantity that stands there; -1 when it is not whole. */
function quantityEnd(file: Uint8Array, at: number, end: number): number {
  for (let i = at; i < at + 4 && i < end; i++) if (file[i]! < 0x80) return i + 1;
  return -1;
}
