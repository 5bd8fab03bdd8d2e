import { bisectRight } from "d3-array";
import type { MotifViewpoint } from "../account.ts";
import { columnOfPacked, notesOfPacked } from "./packed-line.ts";
import { contourCode, intervalAndRhythm, intervalCode, SILENT } from "./viewpoints.ts";

/** Codes of a viewpoint, one a place; in 16 bits where a byte does not hold them. */
export type PackedCodes = Uint8Array | Uint16Array;

/** Lines of takes laid end to end, to be searched. */
export interface PackedText {
  /**
   * First place of each take, and after them the number of places. A take has a place more than notes; nothing is
   * there, so that no code runs from one take into the next.
   */
  readonly starts: Int32Array;
  /** MIDI number at each place. */
  readonly pitches: Uint8Array;
  /** Made when a viewpoint is first asked for. */
  codes(viewpoint: MotifViewpoint): PackedCodes;
  /** Places at which a row of codes begins, in rising order. */
  occurrences(viewpoint: MotifViewpoint, codes: Int32Array): Int32Array;
}

/**
 * Lines ready to be searched by reading them through: a byte or two a note for each search, which is fast enough for
 * some 10^7 notes and needs neither a sorted text nor its memory.
 *
 * @param lines one a take, as `packLine` makes them
 */
export function packedText(lines: readonly Uint8Array[]): PackedText {
  const starts = new Int32Array(lines.length + 1);
  lines.forEach((line, k) => {
    starts[k + 1] = starts[k]! + notesOfPacked(line) + 1;
  });
  const [pitches, degrees, fingers, rhythms] = ([0, 1, 2, 3] as const).map((column) => {
    const whole = new Uint8Array(starts[lines.length]!);
    lines.forEach((line, k) => {
      whole.set(columnOfPacked(line, column), starts[k]!);
    });
    return whole;
  }) as [Uint8Array, Uint8Array, Uint8Array, Uint8Array];
  const stepped = (row: PackedCodes, codeAt: (place: number) => number) => {
    for (let k = 0; k + 1 < starts.length; k++) {
      for (let place = starts[k]!; place + 2 < starts[k + 1]!; place++) row[place] = codeAt(place);
    }
    return row;
  };
  const stepAt = (place: number) => pitches[place + 1]! - pitches[place]!;
  const make = (viewpoint: MotifViewpoint): PackedCodes => {
    switch (viewpoint) {
      case "chromatic interval":
        return stepped(new Uint8Array(pitches.length), (place) => intervalCode(stepAt(place)));
      case "contour":
        return stepped(new Uint8Array(pitches.length), (place) => contourCode(stepAt(place)));
      case "interval and rhythm":
        return stepped(new Uint16Array(pitches.length), (place) =>
          intervalAndRhythm(stepAt(place), rhythms[place]!),
        );
      case "degree":
        return degrees;
      case "finger":
        return fingers;
      case "rhythm":
        return rhythms;
    }
  };
  const made = new Map<MotifViewpoint, PackedCodes>();
  const codes = (viewpoint: MotifViewpoint) => {
    const row = made.get(viewpoint) ?? make(viewpoint);
    made.set(viewpoint, row);
    return row;
  };
  return {
    starts,
    pitches,
    codes,
    occurrences: (viewpoint, wanted) => placesIn(codes(viewpoint), wanted),
  };
}

/** @param wanted at least one code, none of them silent */
function placesIn(row: PackedCodes, wanted: Int32Array): Int32Array {
  const first = wanted[0]!;
  if (wanted.includes(SILENT)) return new Int32Array(0);
  let places = new Int32Array(1024);
  let found = 0;
  for (let place = 0; place < row.length; place++) {
    if (row[place] !== first) continue;
    let k = 1;
    while (k < wanted.length && row[place + k] === wanted[k]) k++;
    if (k < wanted.length) continue;
    if (found === places.length) {
      const longer = new Int32Array(2 * found);
      longer.set(places);
      places = longer;
    }
    places[found++] = place;
  }
  return places.subarray(0, found);
}

/** The take of a place. */
export function takeOfPlace(starts: Int32Array, place: number): number {
  return bisectRight(starts, place) - 1;
}
