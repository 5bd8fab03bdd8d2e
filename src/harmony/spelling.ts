/**
 * Spelling: which of its names a pitch gets. Chord first, direction second, key third.
 *
 * 1. What the chord names, and what belongs to its scale or is blue in it, is spelled from the chord's root.
 * 2. What is foreign to the chord leans on the note that it moves to: raised when it rises by a half step, lowered
 *    when it falls by one.
 * 3. What is left is spelled as near to the key as it gets on the line of fifths.
 * Double accidentals are not used where a chord is given: players read D, not E double flat [practice].
 */
import type { ChordSpan, Key } from "../chart/types.ts";
import { aboveRoot, degreeOf } from "./degree.ts";
import { accidentalOf, DEGREE_FIFTHS, fifthsOf, nearestTo, pitchClassOf, signatureOf } from "./names.ts";
import type { HarmonicRole } from "./roles.ts";

/** A diminished second on the line of fifths: from a name to its enharmonic twin on the flat side. */
const TWIN = 12;

/** Middle of a key's twelve usual names, counted from its signature: four flats to seven sharps of it. [practice] */
const KEY_CENTRE = 1.5;

/**
 * Place on the line of fifths of a pitch under a chord.
 * @param role the harmonic role of the pitch under `span`
 * @param next pitch and place of the note that it moves to, or null
 */
export function spellUnder(
  pitch: number,
  role: HarmonicRole,
  span: ChordSpan,
  key: Key,
  next: { readonly pitch: number; readonly fifths: number } | null,
): number {
  const named = span.chord !== null && role !== "outside" ? fromChord(pitch, span, key) : null;
  if (named !== null && !(isBlueFifth(role, named, span) && next !== null && next.pitch === pitch + 1))
    return named;
  return byDirection(pitch, key, next) ?? byKey(pitch, key);
}

/** By the chord's root and the note's degree; a diminished seventh chord's top is its seventh, not its sixth. */
function fromChord(pitch: number, span: ChordSpan, key: Key): number {
  const chord = span.chord!;
  const above = aboveRoot(pitch, span, key);
  const root = fifthsOf(chord.root);
  const isDiminishedSeventh = chord.quality === "diminished-seventh" && above === 9;
  const place = root + (isDiminishedSeventh ? -9 : DEGREE_FIFTHS[degreeOf(above, span, key)]);
  return withoutDoubles(place);
}

/** The blue fifth is the only blue note that is written raised when it rises; the blue third keeps its name. */
function isBlueFifth(role: HarmonicRole, place: number, span: ChordSpan): boolean {
  return role === "blue" && place - fifthsOf(span.chord!.root) === DEGREE_FIFTHS.b5;
}

function byDirection(
  pitch: number,
  key: Key,
  next: { readonly pitch: number; readonly fifths: number } | null,
): number | null {
  if (next === null) return null;
  const step = next.pitch - pitch;
  if (step !== 1 && step !== -1) return null;
  const place = withoutDoubles(next.fifths + (step === 1 ? 5 : -5));
  const inKey = byKey(pitch, key);
  // B sharp for C, or F flat for E, only where the key has it.
  return isWhiteKey(pitch) && accidentalOf(place) !== 0 ? inKey : place;
}

function byKey(pitch: number, key: Key): number {
  return withoutDoubles(nearestTo(pitch % 12, signatureOf(key) + KEY_CENTRE));
}

function isWhiteKey(pitch: number): boolean {
  return [0, 2, 4, 5, 7, 9, 11].includes(pitch % 12);
}

function withoutDoubles(place: number): number {
  const accidental = accidentalOf(place);
  if (accidental >= 2) return place - TWIN;
  if (accidental <= -2) return place + TWIN;
  return place;
}

/** True when a place names a pitch: a check for callers that mix the two. */
export function names(fifths: number, pitch: number): boolean {
  return pitchClassOf(fifths) === pitch % 12;
}
