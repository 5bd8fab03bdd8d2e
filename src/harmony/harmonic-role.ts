/**
 * The harmonic role: what a note is against the chord that sounds at its onset. It looks at nothing but that chord
 * and its place in the form; where the note goes is the business of `line-role.ts`.
 */
import type { ChordSpan, Degree, Idiom, Key } from "../chart/types.ts";
import { mod12 } from "../pitch/index.ts";
import { aboveRoot, degreeOf, TONIC_TRIADS, toneOf } from "./degree.ts";
import type { HarmonicRole } from "./roles.ts";

/** All that the chord alone says of one pitch class. */
export interface Sounding {
  readonly degree: Degree;
  readonly role: HarmonicRole;
  /** True for root, third, fifth and seventh (and what stands in for them): the tones on which a line can rest. */
  readonly chordTone: boolean;
  readonly guideTone: boolean;
  /** True for a tension that alters a dominant: b9, #9, b13, and #11 where it is no tone of a Lydian scale. */
  readonly altered: boolean;
}

/**
 * The harmonic role of the note `semitones` (0 to 11) above the root of `span`, first that fits:
 * 1. a tone that the symbol names: root, third, fifth, seventh or, beyond the seventh, tension;
 * 2. an available tension of the span, the altered ones of a dominant that resolves with them; 3. a blue note of the span; 4. an avoid note of the span;
 * 5. a tone of the span's scale on which the span is silent (the seventh over a triad): avoid where it lies a half
 *    step above a chord tone, else tension; 6. outside.
 * For N.C. the tones of the key's tonic triad are root, third and fifth, all else is outside.
 * Source: Nettles & Graf, The Chord Scale Theory [memory] for tensions and the half-step rule.
 *
 * @example over C7 in a blues: E "third", D "tension", Eb "blue", F "avoid", Ab "outside"
 */
export function harmonicRoleOf(semitones: number, span: ChordSpan): HarmonicRole {
  if (span.chord === null) {
    const place = TONIC_TRIADS[span.key.mode].indexOf(semitones);
    return (["root", "third", "fifth"] as const)[place] ?? "outside";
  }
  const named = toneOf(span.chord, semitones);
  if (named !== null) return named.role;
  const has = (list: readonly { readonly semitones: number }[]) =>
    list.some((tone) => tone.semitones === semitones);
  if (has(span.tensions) || has(span.altered)) return "tension";
  if (has(span.blue)) return "blue";
  if (has(span.avoid)) return "avoid";
  if (!span.scaleTones.includes(semitones)) return "outside";
  const below = toneOf(span.chord, (semitones + 11) % 12);
  return below !== null && below.role !== "tension" ? "avoid" : "tension";
}

/** True for the roles of the chord proper, on which a line can come to rest. */
export function isChordToneRole(role: HarmonicRole): boolean {
  switch (role) {
    case "root":
    case "third":
    case "fifth":
    case "seventh":
      return true;
    case "tension":
    case "blue":
    case "avoid":
    case "outside":
      return false;
  }
}

/**
 * True where the note is a guide tone: the third or seventh of a sounding chord, by which a line alone tells the
 * changes; the sixth stands in on sixth chords and the fourth on suspended ones. Source: Coker [memory].
 */
export function isGuideTone(role: HarmonicRole, span: ChordSpan): boolean {
  return span.chord !== null && (role === "third" || role === "seventh");
}

/** Scales in which the sharp eleventh is a tone like the others. */
const WITH_SHARP_ELEVENTH: readonly string[] = ["Lydian b7", "whole tone"];

/** True where a tension over a dominant is one of those that alter it. Source: Levine [memory]. */
function isAltered(semitones: number, span: ChordSpan): boolean {
  if (span.chord?.quality !== "dominant") return false;
  if (semitones === 6) return !WITH_SHARP_ELEVENTH.includes(span.scale);
  return semitones === 1 || semitones === 3 || semitones === 8;
}

/** Semitones above the tonic that are blue in the key, by mode: in minor the third is the key's own. */
const BLUE_IN_KEY: Readonly<Record<Key["mode"], readonly number[]>> = { major: [3, 6], minor: [6] };

/**
 * True where the note is the blue third or fifth of the key of a blues, whatever the chord: Ab over the IV7 of a
 * blues in F is that chord's seventh and the key's blue third. Never in the standard idiom. [practice]
 */
export function isBlueInKey(pitch: number, { key }: ChordSpan, idiom: Idiom): boolean {
  if (idiom !== "blues") return false;
  return BLUE_IN_KEY[key.mode].includes(mod12(pitch - key.tonicClass));
}

/** Degree and role of all twelve pitch classes under a span, by MIDI pitch class; made once a span. */
export function soundingTable(span: ChordSpan): readonly Sounding[] {
  return Array.from({ length: 12 }, (_, pitchClass) => {
    const semitones = aboveRoot(pitchClass, span);
    const role = harmonicRoleOf(semitones, span);
    return {
      degree: degreeOf(semitones, span),
      role,
      chordTone: isChordToneRole(role),
      guideTone: isGuideTone(role, span),
      altered: role === "tension" && isAltered(semitones, span),
    };
  });
}
