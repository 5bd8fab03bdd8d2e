import type { MotifViewpoint } from "../account.ts";
import { DEGREES, type Degree } from "../chart/index.ts";
import type { Finger } from "../take/index.ts";

/**
 * Viewpoints: what is listened to when two stretches of a line are said to be the same. Each turns a line into a row
 * of whole numbers (codes) that mean the same in every take, so that takes can be searched together.
 */

/** What a viewpoint may ask of a note. Notes of a take, of an account, or of a pattern played on a keyboard. */
export interface ViewedNote {
  /** MIDI number. */
  readonly pitch: number;
  /** Seconds. */
  readonly onset: number;
  /** Snapped chart position in quarter-note beats; null in rubato. */
  readonly position: number | null;
  readonly degree: Degree | null;
  readonly finger: Finger | null;
}

/** Code of a place where the viewpoint has nothing to say (no finger, no degree). Nothing equals it. */
export const SILENT = 0;

/** A viewpoint looks at steps between notes, or at the notes themselves. */
export const OF_STEPS: Readonly<Record<MotifViewpoint, boolean>> = {
  "chromatic interval": true,
  "interval and rhythm": true,
  degree: false,
  contour: true,
  rhythm: true,
  finger: false,
};

/** Rhythm classes are twelfths of a quarter note, which hold triplets and sixteenths, up to eight quarters. */
const TWELFTHS = 12;
const LONGEST = 8 * TWELFTHS;
/**
 * Classes of a step's length against the step before it, where there is no beat: half-octaves of the ratio, up to 16,
 * from a sixteenth to a whole note; what is longer is a rest.
 */
const RATIO_ZERO = LONGEST + 10;
const RATIO_MOST = 8;
const RHYTHMS = 128;

const CONTOURS = ["leap down", "step down", "repeat", "step up", "leap up"] as const;

/**
 * Codes of a line in a viewpoint: one a step (n - 1 of them) or one a note (n), each 1 or more, or `SILENT`.
 *
 * @param line notes in time order, one at a time
 * @param from first note of a take in the line, `to` the one after its last; the whole line when left out
 */
export function codesOf(
  line: readonly ViewedNote[],
  viewpoint: MotifViewpoint,
  from = 0,
  to = line.length,
): Int32Array {
  const codes = new Int32Array(OF_STEPS[viewpoint] ? Math.max(0, to - from - 1) : to - from);
  for (let k = 0; k < codes.length; k++) codes[k] = codeAt(line, from + k, viewpoint, from);
  return codes;
}

function codeAt(line: readonly ViewedNote[], i: number, viewpoint: MotifViewpoint, from: number): number {
  switch (viewpoint) {
    case "chromatic interval":
      return intervalCode(stepAt(line, i));
    case "interval and rhythm":
      return intervalAndRhythm(stepAt(line, i), rhythmCode(line, i, from));
    case "degree": {
      const degree = line[i]!.degree;
      return degree === null ? SILENT : DEGREES.indexOf(degree) + 1;
    }
    case "contour":
      return contourCode(stepAt(line, i));
    case "rhythm":
      return rhythmCode(line, i, from);
    case "finger":
      return line[i]!.finger ?? SILENT;
  }
}

function stepAt(line: readonly ViewedNote[], i: number): number {
  return line[i + 1]!.pitch - line[i]!.pitch;
}

/** @param step semitones from one note to the next */
export function intervalCode(step: number): number {
  return step + 128;
}

/** @param rhythm code of the viewpoint of rhythm, or `SILENT` */
export function intervalAndRhythm(step: number, rhythm: number): number {
  return rhythm === SILENT ? SILENT : intervalCode(step) * RHYTHMS + rhythm;
}

export function contourCode(interval: number): number {
  if (Math.abs(interval) <= 2) return Math.sign(interval) + 3;
  return interval > 0 ? 5 : 1;
}

function rhythmCode(line: readonly ViewedNote[], i: number, from: number): number {
  const [a, b] = [line[i]!, line[i + 1]!];
  if (a.position !== null && b.position !== null) {
    return 1 + Math.min(LONGEST, Math.max(0, Math.round((b.position - a.position) * TWELFTHS)));
  }
  const before = i > from ? line[i - 1] : undefined;
  if (before === undefined) return SILENT;
  const ratio = Math.max(1e-3, b.onset - a.onset) / Math.max(1e-3, a.onset - before.onset);
  const class_ = Math.round(2 * Math.log2(ratio));
  return RATIO_ZERO + RATIO_MOST + Math.min(RATIO_MOST, Math.max(-RATIO_MOST, class_));
}

/** The rhythm in a code of the viewpoint of interval and rhythm, as a code of the viewpoint of rhythm. */
export function rhythmPart(code: number): number {
  return code % RHYTHMS;
}

/** A code in words or numbers that a person can read: semitones, "+2, 0.5 beats", "b3", "step up", beats, finger. */
export function symbolOf(code: number, viewpoint: MotifViewpoint): number | string {
  switch (viewpoint) {
    case "chromatic interval":
      return code - 128;
    case "interval and rhythm": {
      const interval = Math.floor(code / RHYTHMS) - 128;
      return `${interval > 0 ? "+" : ""}${interval}, ${rhythmWords(code % RHYTHMS)}`;
    }
    case "degree":
      return DEGREES[code - 1] ?? "";
    case "contour":
      return CONTOURS[code - 1] ?? "";
    case "rhythm":
      return rhythmWords(code);
    case "finger":
      return code;
  }
}

/** The code of a symbol as `symbolOf` gives it, or null when it is none of the viewpoint's. */
export function codeOf(symbol: number | string, viewpoint: MotifViewpoint): number | null {
  switch (viewpoint) {
    case "chromatic interval":
      return typeof symbol === "number" && Number.isInteger(symbol) && Math.abs(symbol) < 128
        ? symbol + 128
        : null;
    case "interval and rhythm": {
      const [interval, rhythm] = String(symbol).split(", ");
      const step = codeOf(Number(interval), "chromatic interval");
      const length = rhythm === undefined ? null : rhythmOf(rhythm);
      return step === null || length === null ? null : step * RHYTHMS + length;
    }
    case "degree":
      return placeIn(DEGREES, symbol);
    case "contour":
      return placeIn(CONTOURS, symbol);
    case "rhythm":
      return rhythmOf(String(symbol));
    case "finger":
      return typeof symbol === "number" && Number.isInteger(symbol) && symbol >= 1 && symbol <= 5
        ? symbol
        : null;
  }
}

function placeIn(names: readonly string[], symbol: number | string): number | null {
  const place = names.indexOf(String(symbol));
  return place < 0 ? null : place + 1;
}

function rhythmOf(words: string): number | null {
  const beats = /^(\d+(?:\.\d+)?) beats?$/.exec(words);
  if (beats !== null) return 1 + Math.min(LONGEST, Math.round(Number(beats[1]) * TWELFTHS));
  if (words === "same length") return RATIO_ZERO + RATIO_MOST;
  const ratio = /^(\d+(?:\.\d+)?) times (longer|shorter)$/.exec(words);
  if (ratio === null) return null;
  const class_ = Math.round(2 * Math.log2(Number(ratio[1])));
  return RATIO_ZERO + RATIO_MOST + Math.min(RATIO_MOST, class_) * (ratio[2] === "longer" ? 1 : -1);
}

function rhythmWords(code: number): string {
  if (code >= RATIO_ZERO) {
    const class_ = code - RATIO_ZERO - RATIO_MOST;
    if (class_ === 0) return "same length";
    const times = Math.round(2 ** (Math.abs(class_) / 2) * 10) / 10;
    return class_ > 0 ? `${times} times longer` : `${times} times shorter`;
  }
  const twelfths = code - 1;
  const beats = Math.round((twelfths / TWELFTHS) * 100) / 100;
  return beats === 1 ? "1 beat" : `${beats} beats`;
}
