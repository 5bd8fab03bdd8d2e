import { Problem } from "../../take/index.ts";
import { counted } from "../../words/index.ts";
import { LIMITS } from "../limits.ts";
import type { WarningCollector } from "../warning-collector.ts";
import { mendedData, straySystemData } from "./mend-bytes.ts";

/** What is told of the events of a track, in order. Ticks are absolute, channels 0 to 15, data bytes 0 to 127. */
export interface TrackListener {
  noteOn(tick: number, channel: number, pitch: number, velocity: number): void;
  noteOff(tick: number, channel: number, pitch: number): void;
  controller(tick: number, channel: number, controller: number, value: number): void;
  program(tick: number, channel: number, program: number): void;
  /** A meta event of usable length; its data lie between the two offsets of the file. */
  meta(tick: number, type: number, from: number, to: number): void;
}

/** Where a track ended. Offsets are from the file's start. */
export interface TrackEnd {
  /** One after the end-of-track event, or null when there is none. */
  readonly endOfTrack: number | null;
  /** Of the last whole event. */
  readonly tick: number;
  readonly events: number;
}

/** Data lengths that the standard fixes for its meta events; a meta event of another length is passed over. */
const META_LENGTHS: ReadonlyMap<number, readonly number[]> = new Map([
  [0x00, [2]],
  [0x20, [1]],
  [0x21, [1]],
  [0x51, [3]],
  [0x54, [5]],
  [0x58, [2, 4]],
  [0x59, [2]],
]);
const END_OF_TRACK = 0x2f;

/**
 * Walks the events of one track between two offsets (SMF 1.0, "MTrk Event") and stops at its end or at the first
 * event that is not whole. Running status is kept across meta events, which the standard forbids and many files do.
 * Nothing is built for an event: the hour of a pianist has hundreds of thousands.
 *
 * @param number Of the track, from 1, for warnings.
 * @param most Events that may still be read of this file.
 * @throws Problem when there are more.
 */
export function walkTrack(
  file: Uint8Array,
  from: number,
  end: number,
  number: number,
  most: number,
  listener: TrackListener,
  warnings: WarningCollector,
): TrackEnd {
  let at = from;
  let whole = from;
  let tick = 0;
  let wholeTick = 0;
  let status = -1;
  let events = 0;
  let endOfTrack: number | null = null;
  let fault = "";

  while (at < end) {
    const deltaSize = quantitySize(file, at, end);
    if (deltaSize === 0) {
      fault = "a delta time";
      break;
    }
    tick += quantityAt(file, at, deltaSize);
    if (tick > LIMITS.midiTicks) throw tooLong(number);
    at += deltaSize;
    if (at >= end) {
      fault = "an event";
      break;
    }
    const first = file[at]!;
    if (first < 0xf0) {
      if (first >= 0x80) {
        status = first;
        at++;
      } else if (status < 0) {
        fault = "a data byte without a status byte";
        break;
      }
      const kind = status >> 4;
      const wanted = kind === 0xc || kind === 0xd ? 1 : 2;
      let [a, b, size] = [file[at]!, wanted === 2 ? file[at + 1]! : 0, wanted];
      if (at + wanted > end || a >= 0x80 || b >= 0x80) {
        const mended = mendedData(file, at, end, { wanted, track: number }, warnings);
        if (mended < 0) {
          fault = "a channel message";
          break;
        }
        [a, b, size] = [mended & 0x7f, (mended >> 7) & 0x7f, mended >> 14];
      }
      at += size;
      const channel = status & 0xf;
      if (kind === 0x9 && b > 0) listener.noteOn(tick, channel, a, b);
      else if (kind === 0x8 || kind === 0x9) listener.noteOff(tick, channel, a);
      else if (kind === 0xb) listener.controller(tick, channel, a, b);
      else if (kind === 0xc) listener.program(tick, channel, a);
    } else if (first !== 0xf0 && first !== 0xf7 && first !== 0xff) {
      at += 1 + straySystemData(first, number, at, warnings);
    } else {
      at++;
      const type = first === 0xff ? (file[at++] ?? -1) : -1;
      const typeAt = at - 1;
      const lengthSize = quantitySize(file, at, end);
      const length = quantityAt(file, at, lengthSize);
      at += lengthSize;
      if (lengthSize === 0 || at + length > end) {
        fault = first === 0xff ? "a meta event" : "a System Exclusive message";
        break;
      }
      const data = at;
      at += length;
      if (type === END_OF_TRACK) endOfTrack = at;
      else if (META_LENGTHS.get(type)?.includes(length) === false) {
        warnings.add(
          "malformed-meta",
          `track ${number}, byte ${typeAt}`,
          (times) =>
            `${counted(times, "meta event")} of a wrong length ${times === 1 ? "was" : "were"} passed over.`,
        );
      } else if (type >= 0) listener.meta(tick, type, data, at);
    }
    if (++events > most) throw tooManyEvents();
    whole = at;
    wholeTick = tick;
    if (endOfTrack !== null) break;
  }

  warnOfEnd(fault, endOfTrack === null, { number, whole }, warnings);
  return { endOfTrack, tick: wholeTick, events };
}

/** Says how a track ended, where it did not end as it should. */
function warnOfEnd(
  fault: string,
  open: boolean,
  { number, whole }: { readonly number: number; readonly whole: number },
  warnings: WarningCollector,
): void {
  if (fault !== "") {
    warnings.add("broken-track", `track ${number}, byte ${whole}`, (times) =>
      times === 1
        ? `A track breaks off at ${fault}; it was read up to there.`
        : `${times} tracks break off, the first at ${fault}; each was read up to its break.`,
    );
  } else if (open) {
    warnings.add(
      "no-end-of-track",
      `track ${number}`,
      (times) =>
        `${counted(times, "track")} without an end-of-track event ${times === 1 ? "was" : "were"} read whole.`,
    );
  }
}

function tooLong(track: number): Problem {
  return new Problem(
    "take-too-long",
    `The file counts more than ${LIMITS.midiTicks} ticks`,
    `track ${track}`,
    "Cut the file to the solo; at most 12 hours are read.",
  );
}

/** Bytes of the variable-length quantity that stands there, at most four; 0 when it is not whole. */
function quantitySize(file: Uint8Array, at: number, end: number): number {
  for (let size = 1; size <= 4 && at + size <= end; size++) if (file[at + size - 1]! < 0x80) return size;
  return 0;
}

function quantityAt(file: Uint8Array, at: number, size: number): number {
  let value = 0;
  for (let i = 0; i < size; i++) value = (value << 7) | (file[at + i]! & 0x7f);
  return value;
}

function tooManyEvents(): Problem {
  return new Problem(
    "too-many-notes",
    `The file has more than ${LIMITS.midiEvents} events`,
    null,
    "Cut it into takes of a few minutes each.",
  );
}
