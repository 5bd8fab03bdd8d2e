import { count, type Notices } from "../notices.ts";

/** Where the whole events of a track end, found without building any of them. Offsets are from the file's start. */
export interface TrackScan {
  /** One after the last byte of the last whole event. */
  readonly end: number;
  /** One after the end-of-track event, or null when there is none. */
  readonly endOfTrack: number | null;
  readonly events: number;
  readonly noteOns: number;
  /** Offsets of the type bytes of meta events that are malformed or too long, to be passed over. */
  readonly silenced: readonly number[];
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

/** The parser beneath passes a text's bytes as arguments of one call, which overflows the stack beyond this. */
const LONGEST_TEXT = 32_768;

/**
 * Walks the events of one track between two offsets (SMF 1.0, "MTrk Event"; running status is kept across meta
 * events, which the standard forbids and many files do).
 */
export function scanTrack(
  file: Uint8Array,
  from: number,
  end: number,
  track: number,
  notices: Notices,
): TrackScan {
  const silenced: number[] = [];
  let at = from;
  let whole = from;
  let status = -1;
  let events = 0;
  let noteOns = 0;
  let endOfTrack: number | null = null;
  let fault = "";

  /** A variable-length quantity of at most four bytes at `at`; -1 when there is none. */
  const quantity = (): number => {
    let value = 0;
    for (let i = 0; i < 4; i++) {
      if (at >= end) return -1;
      const byte = file[at++]!;
      value = (value << 7) | (byte & 0x7f);
      if (byte < 0x80) return value;
    }
    return -1;
  };

  while (at < end) {
    if (quantity() < 0) {
      fault = "a delta time";
      break;
    }
    if (at >= end) {
      fault = "an event";
      break;
    }
    const first = file[at]!;
    if (first >= 0xf0) {
      at++;
      if (first !== 0xf0 && first !== 0xf7 && first !== 0xff) {
        fault = `status byte ${first}`;
        break;
      }
      const type = first === 0xff ? file[at++] : undefined;
      const typeAt = at - 1;
      const length = quantity();
      if (length < 0 || at + length > end || (first === 0xff && type === undefined)) {
        fault = first === 0xff ? "a meta event" : "a System Exclusive message";
        break;
      }
      at += length;
      if (type === 0x2f) {
        // With data it is still the end, but the parser would refuse it.
        if (length > 0) silenced.push(typeAt);
        endOfTrack = at;
      } else if (type !== undefined && isMalformed(type, length)) {
        silenced.push(typeAt);
        notices.add(
          "malformed-meta",
          `track ${track}, byte ${typeAt}`,
          (times) =>
            `${count(times, "meta event")} of a wrong length ${times === 1 ? "was" : "were"} passed over.`,
        );
      }
    } else {
      if (first >= 0x80) {
        status = first;
        at++;
      } else if (status < 0) {
        fault = "a data byte without a status byte";
        break;
      }
      const kind = status >> 4;
      const wanted = kind === 0xc || kind === 0xd ? 1 : 2;
      if (at + wanted > end || file[at]! >= 0x80 || (wanted === 2 && file[at + 1]! >= 0x80)) {
        fault = "a channel message";
        break;
      }
      if (kind === 9 && file[at + 1] !== 0) noteOns++;
      at += wanted;
    }
    events++;
    whole = at;
    if (endOfTrack !== null) break;
  }

  if (fault !== "") {
    notices.add("broken-track", `track ${track}, byte ${whole}`, (times) =>
      times === 1
        ? `A track breaks off at ${fault}; it was read up to there.`
        : `${times} tracks break off, the first at ${fault}; each was read up to its break.`,
    );
  } else if (endOfTrack === null) {
    notices.add(
      "no-end-of-track",
      `track ${track}`,
      (times) =>
        `${count(times, "track")} without an end-of-track event ${times === 1 ? "was" : "were"} read whole.`,
    );
  }
  return { end: whole, endOfTrack, events, noteOns, silenced };
}

function isMalformed(type: number, length: number): boolean {
  if (type <= 0x0f && type > 0) return length > LONGEST_TEXT;
  return META_LENGTHS.get(type)?.includes(length) === false;
}
