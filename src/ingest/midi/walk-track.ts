import { Problem } from "../../take/index.ts";
import { counted } from "../../words/index.ts";
import { LIMITS } from "../limits.ts";
import type { WarningCollector } from "../warning-collector.ts";
import { mendedData, systemDataOf, warnOfStray } from "./mend-bytes.ts";
import { metaLengthsOf } from "./meta-lengths.ts";
import { resumeAt } from "./resume.ts";

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
  /** False when anything in it was not as the standard asks. */
  readonly sound: boolean;
}

const END_OF_TRACK = 0x2f;

/**
 * Walks the events of one track between two offsets (SMF 1.0, "MTrk Event") and stops at its end. Behind an event
 * that is not whole it goes on where events follow each other again. Running status is kept across meta events, which the standard forbids and many files do.
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
  const walk = new TrackWalk(file, from, end, number, listener, warnings);
  let whole = from;
  let tick = 0;
  let events = 0;
  let fault = "";
  while (walk.at < end && walk.endOfTrack === null) {
    fault = walk.event();
    if (fault !== "") {
      walk.sound = false;
      if (!walk.resume(whole, tick)) break;
      warnOfGap(number, whole, warnings);
      fault = "";
      whole = walk.at;
      continue;
    }
    if (++events > most) throw tooManyEvents();
    whole = walk.at;
    tick = walk.tick;
  }
  warnOfEnd(fault, walk.endOfTrack === null, { number, whole }, warnings);
  return { endOfTrack: walk.endOfTrack, tick, events, sound: walk.sound && walk.endOfTrack !== null };
}

/** Where a walk through a track stands. */
class TrackWalk {
  at: number;
  tick = 0;
  endOfTrack: number | null = null;
  sound = true;
  readonly #file: Uint8Array;
  readonly #end: number;
  readonly #number: number;
  readonly #listener: TrackListener;
  readonly #warnings: WarningCollector;
  #status = -1;
  /** Where the event that is not whole would end if its data alone were damaged; -1 where that is not known. */
  #behind = -1;

  constructor(
    file: Uint8Array,
    from: number,
    end: number,
    number: number,
    listener: TrackListener,
    warnings: WarningCollector,
  ) {
    this.#file = file;
    this.at = from;
    this.#end = end;
    this.#number = number;
    this.#listener = listener;
    this.#warnings = warnings;
  }

  /** Goes on behind an event that is not whole; false where no events follow. */
  resume(from: number, whole: number): boolean {
    const next = resumeAt(this.#file, from, this.#end, this.#behind, this.#status);
    if (next < 0) return false;
    // Of an event whose length is known the delta time holds; else nothing is known of the time that is lost.
    if (next !== this.#behind) {
      this.tick = whole;
      this.#status = -1;
    }
    this.at = next;
    this.#behind = -1;
    return true;
  }

  /** Reads one event with its delta time; returns what of it is not whole, "" when all of it is. */
  event(): string {
    const deltaSize = quantitySize(this.#file, this.at, this.#end);
    if (deltaSize === 0) return "a delta time";
    this.tick += quantityAt(this.#file, this.at, deltaSize);
    if (this.tick > LIMITS.midiTicks) throw tooLong(this.#number);
    this.at += deltaSize;
    if (this.at >= this.#end) return "an event";
    const first = this.#file[this.at]!;
    if (first < 0xf0) return this.#channelMessage(first);
    if (first === 0xf0 || first === 0xf7 || first === 0xff) return this.#longMessage(first);
    this.sound = false;
    warnOfStray(this.#number, this.at, this.#warnings);
    this.at += 1 + systemDataOf(first);
    return "";
  }

  #channelMessage(first: number): string {
    if (first >= 0x80) {
      this.#status = first;
      this.at++;
    } else if (this.#status < 0) return "a data byte without a status byte";
    const kind = this.#status >> 4;
    const wanted = kind === 0xc || kind === 0xd ? 1 : 2;
    let a = this.#file[this.at]!;
    let b = wanted === 2 ? this.#file[this.at + 1]! : 0;
    let size = wanted;
    if (this.at + wanted > this.#end || a >= 0x80 || b >= 0x80) {
      this.sound = false;
      const where = { wanted, track: this.#number };
      const mended = mendedData(this.#file, this.at, this.#end, where, this.#warnings);
      if (mended < 0) {
        this.#behind = this.at + wanted;
        return "a channel message";
      }
      a = mended & 0x7f;
      b = (mended >> 7) & 0x7f;
      size = mended >> 14;
    }
    this.at += size;
    tell(this.#listener, this.tick, this.#status, a, b);
    return "";
  }

  /** A meta event or a System Exclusive message. */
  #longMessage(first: number): string {
    this.at++;
    const type = first === 0xff ? (this.#file[this.at++] ?? -1) : -1;
    const typeAt = this.at - 1;
    const lengthSize = quantitySize(this.#file, this.at, this.#end);
    const length = quantityAt(this.#file, this.at, lengthSize);
    const from = this.at + lengthSize;
    if (lengthSize === 0 || from + length > this.#end) {
      return first === 0xff ? "a meta event" : "a System Exclusive message";
    }
    this.at = from + length;
    if (type === END_OF_TRACK) this.endOfTrack = this.at;
    else if (type >= 0 && isUsable(type, length, `track ${this.#number}, byte ${typeAt}`, this.#warnings)) {
      this.#listener.meta(this.tick, type, from, this.at);
    }
    return "";
  }
}

/** Hands on a channel message of a status byte and its data bytes. */
export function tell(listener: TrackListener, tick: number, status: number, a: number, b: number): void {
  const kind = status >> 4;
  const channel = status & 0xf;
  if (kind === 0x9 && b > 0) listener.noteOn(tick, channel, a, b);
  else if (kind === 0x8 || kind === 0x9) listener.noteOff(tick, channel, a);
  else if (kind === 0xb) listener.controller(tick, channel, a, b);
  else if (kind === 0xc) listener.program(tick, channel, a);
}

/** Whether a meta event has a length that the standard gives it. */
export function isUsable(type: number, length: number, where: string, warnings: WarningCollector): boolean {
  if (metaLengthsOf(type)?.includes(length) !== false) return true;
  warnings.add(
    "malformed-meta",
    where,
    (times) =>
      `${counted(times, "meta event")} of a wrong length ${times === 1 ? "was" : "were"} passed over.`,
  );
  return false;
}

export function warnOfGap(track: number, at: number, warnings: WarningCollector): void {
  warnings.add(
    "damaged-bytes",
    `track ${track}, byte ${at}`,
    (times) =>
      `${counted(times, "damaged stretch", "damaged stretches")} of a track ${times === 1 ? "was" : "were"} left out, with what was played there; what follows may stand too early.`,
  );
}

/** Says how a track ended, where it did not end as it should. */
export function warnOfEnd(
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

export function tooManyEvents(): Problem {
  return new Problem(
    "too-many-notes",
    `The file has more than ${LIMITS.midiEvents} events`,
    null,
    "Cut it into takes of a few minutes each.",
  );
}
