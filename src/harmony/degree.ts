/**
 * The degree of a note: its name against the root of the chord that sounds, or against the key's tonic where no
 * chord sounds (N.C.).
 *
 * Twelve pitch classes have sixteen names; the chord decides which one is meant: C sharp's enharmonic twin over A7 is
 * the third, the note a minor third above C is the third of Cm7, the sharp ninth of C7 and the blue third in a blues.
 */
import type { Chord, ChordSpan, Degree, Key, Quality } from "../chart/types.ts";
import { mod12 } from "../pitch/index.ts";

/** Names that hold whatever the chord is; the rest is decided by `COLOURED`. */
const PLAIN: readonly (Degree | null)[] = ["1", "b9", "9", null, "3", "11", null, "5", null, null, "b7", "7"];

/** Degree by semitones above the root, for notes that neither the symbol nor the span names. */
interface ColouredNames {
  readonly 3: Degree;
  readonly 6: Degree;
  readonly 8: Degree;
  readonly 9: Degree;
}

const DOMINANT: ColouredNames = { 3: "#9", 6: "#11", 8: "b13", 9: "13" };
const MAJOR: ColouredNames = { 3: "b3", 6: "#11", 8: "#5", 9: "13" };
const TRIAD: ColouredNames = { 3: "b3", 6: "#11", 8: "#5", 9: "6" };
const MINOR: ColouredNames = { 3: "b3", 6: "b5", 8: "b13", 9: "13" };

/**
 * How the four ambiguous notes are called over each family of chords: raised where the chord has the tone above or
 * a major third, lowered where it is minor. [practice; the sharp ninth of dominants, Levine, memory]
 */
const COLOURED: Readonly<Record<Quality, ColouredNames>> = {
  major: TRIAD,
  "major-seventh": MAJOR,
  sixth: TRIAD,
  dominant: DOMINANT,
  suspended: { ...DOMINANT, 3: "b3" },
  minor: { ...MINOR, 9: "6" },
  "minor-seventh": MINOR,
  "minor-sixth": { ...MINOR, 9: "6" },
  "minor-major": MINOR,
  "half-diminished": MINOR,
  diminished: { ...MINOR, 9: "6" },
  "diminished-seventh": { ...MINOR, 9: "6" },
  augmented: TRIAD,
  "augmented-major": MAJOR,
  power: TRIAD,
};

/** Tones of the key's tonic triad, semitones above the tonic: what a note is heard against where no chord sounds. */
export const TONIC_TRIADS: Readonly<Record<Key["mode"], readonly [number, number, number]>> = {
  major: [0, 4, 7],
  minor: [0, 3, 7],
};

/** Pitch class against which degrees are counted under `span`: the chord's root, or the key's tonic for N.C. */
function rootClassOf(span: ChordSpan): number {
  return span.chord === null ? span.key.tonicClass : span.chord.rootClass;
}

/** Semitones of a MIDI pitch above the root of `span` (above the tonic for N.C.), 0 to 11. */
export function aboveRoot(pitch: number, span: ChordSpan): number {
  return mod12(pitch - rootClassOf(span));
}

/**
 * The degree of the note `semitones` (0 to 11) above the root of `span`. What the symbol names comes first, then the
 * tensions, blue notes and avoid notes that the place in the form gives, then the usual name over such a chord.
 *
 * @example over C7 in a blues: 3 is "b3"; over C7 elsewhere "#9"; over Cm7 "b3" (a chord tone)
 */
export function degreeOf(semitones: number, span: ChordSpan): Degree {
  const named = span.chord === null ? null : toneOf(span.chord, semitones);
  if (named !== null) return named.degree;
  for (const list of [span.tensions, span.altered, span.blue, span.avoid]) {
    const found = list.find((tone) => tone.semitones === semitones);
    if (found !== undefined) return found.degree;
  }
  return usualDegree(semitones, span.chord === null ? span.key.mode : span.chord.quality);
}

/** The chord tone `semitones` above the root, or null where the symbol names none. */
export function toneOf(chord: Chord, semitones: number): Chord["tones"][number] | null {
  return chord.tones.find((tone) => tone.semitones === semitones) ?? null;
}

function usualDegree(semitones: number, quality: Quality): Degree {
  const plain = PLAIN[semitones];
  if (plain !== null && plain !== undefined) return plain;
  return COLOURED[quality][semitones as keyof ColouredNames];
}
