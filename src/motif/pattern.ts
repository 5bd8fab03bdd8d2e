import { MOTIF_VIEWPOINTS, type MotifViewpoint } from "../account.ts";
import type { Degree } from "../chart/index.ts";
import { type Finger, Problem } from "../take/index.ts";
import { codeOf, codesOf, OF_STEPS, SILENT, symbolOf } from "./viewpoints.ts";

/** An idea that can be named, kept and found again: plain data, safe to store as JSON. */
export interface MotifPattern {
  readonly viewpoint: MotifViewpoint;
  /** As in an account's motif: semitones, "+2, 0.5 beats", degrees, contours, beats, or fingers. */
  readonly symbols: readonly (number | string)[];
  /** Number of notes. */
  readonly notes: number;
}

/** A note of a pattern, played on a keyboard or picked from a take; what is not known may be left out. */
export interface PatternNote {
  /** MIDI number. */
  readonly pitch: number;
  /** Chart position, or time since the first note, in quarter-note beats. */
  readonly position?: number | null;
  readonly degree?: Degree | null;
  readonly finger?: Finger | null;
}

/** Notes of the longest pattern that can be kept. */
const LONGEST = 256;

/**
 * The pattern of some notes in a viewpoint.
 *
 * @param notes in time order, at least two (of a viewpoint of steps) or one
 * @throws Problem "pattern-too-short", "pattern-too-long", or "pattern-incomplete" when the notes lack what the
 * viewpoint looks at (a beat, a degree, a finger)
 * @example patternOf([{ pitch: 60 }, { pitch: 62 }, { pitch: 63 }], "chromatic interval").symbols // [2, 1]
 */
export function patternOf(notes: readonly PatternNote[], viewpoint: MotifViewpoint): MotifPattern {
  const seen = notes.map((note, i) => ({
    pitch: note.pitch,
    onset: i,
    position: note.position ?? null,
    degree: note.degree ?? null,
    finger: note.finger ?? null,
  }));
  const needsBeat = viewpoint === "rhythm" || viewpoint === "interval and rhythm";
  const codes = codesOf(seen, viewpoint);
  const lacks = codes.indexOf(SILENT);
  const beatless = needsBeat ? seen.findIndex((note) => note.position === null) : -1;
  if (lacks >= 0 || beatless >= 0) {
    throw new Problem(
      "pattern-incomplete",
      `The pattern cannot be read as ${viewpoint}: a note lacks what that looks at`,
      `note ${Math.max(lacks, beatless) + 1}`,
      "Choose another viewpoint, or notes of a take in which it is known",
    );
  }
  return checkPattern({
    viewpoint,
    symbols: Array.from(codes, (code) => symbolOf(code, viewpoint)),
    notes: notes.length,
  });
}

/**
 * Reads a pattern from unknown data, as it comes from a store or a request.
 *
 * @throws Problem "not-a-pattern", "pattern-too-short" or "pattern-too-long"
 */
export function checkPattern(value: unknown): MotifPattern {
  const { viewpoint, symbols } = (value ?? {}) as { viewpoint?: unknown; symbols?: unknown };
  const known = MOTIF_VIEWPOINTS.find((name) => name === viewpoint);
  if (known === undefined) {
    throw notAPattern("viewpoint", `Name one of: ${MOTIF_VIEWPOINTS.join(", ")}`);
  }
  if (!Array.isArray(symbols)) throw notAPattern("symbols", "Give a list of symbols of the viewpoint");
  if (symbols.length === 0) {
    throw new Problem("pattern-too-short", "The pattern has no steps", "symbols", "Play two notes or more");
  }
  const notes = symbols.length + (OF_STEPS[known] ? 1 : 0);
  if (notes > LONGEST) {
    throw new Problem(
      "pattern-too-long",
      `The pattern has ${notes} notes, the longest one that can be sought has ${LONGEST}`,
      "symbols",
      "Choose fewer notes",
    );
  }
  symbols.forEach((symbol: unknown, i) => {
    const readable = typeof symbol === "number" || typeof symbol === "string";
    if (!readable || codeOf(symbol, known) === null) {
      throw notAPattern(`symbols, number ${i + 1}`, `Give a symbol of the viewpoint "${known}"`);
    }
  });
  return { viewpoint: known, symbols: symbols as (number | string)[], notes };
}

/** Codes of a pattern, as they stand in a text. */
export function codesOfPattern(pattern: MotifPattern): Int32Array {
  return Int32Array.from(pattern.symbols, (symbol) => codeOf(symbol, pattern.viewpoint) ?? SILENT);
}

function notAPattern(where: string, todo: string): Problem {
  return new Problem("not-a-pattern", "This is not a pattern of a viewpoint", where, todo);
}
