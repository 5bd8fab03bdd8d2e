/** Roman numerals of chords in their key: "bVII7", "#IVdim7". Nettles & Graf, The Chord Scale Theory, 1997 [memory]. */
import { isBlackKey, mod12, naturalClass, stepOf } from "../pitch/index.ts";
import { symbolSuffix } from "./chord-symbol.ts";
import type { Chord, Key } from "./types.ts";

/** The kind of chord after the numeral, without the bass. */
export function kindOf(chord: Chord): string {
  return symbolSuffix(chord);
}

/** Roman numeral of a chord in its key: "bVII7", "#IVdim7". */
export function numeralOf(chord: Chord, key: Key): string {
  return degreeNumeral(chord, key) + kindOf(chord);
}

const ROMAN = ["I", "II", "III", "IV", "V", "VI", "VII"] as const;
const USUAL_NUMERALS = [
  "I",
  "bII",
  "II",
  "bIII",
  "III",
  "IV",
  "#IV",
  "V",
  "bVI",
  "VI",
  "bVII",
  "VII",
] as const;

/**
 * The degree of the root against the major scale of the tonic, by the letters as they are written: in C, Gb7 is bV7
 * and F#7 #IV7. Other raised degrees are diminished chords on their way up (#I, #II, #V); a chord that is written as
 * one only to save accidentals takes the usual lowered degree.
 */
export function degreeNumeral(chord: Chord, key: Key): string {
  const step = (stepOf(chord.root) - stepOf(key.tonic) + 7) % 7;
  const above = mod12(chord.rootClass - key.tonicClass);
  const by = mod12(above - naturalClass(step) + 6) - 6;
  const rising = chord.quality === "diminished" || chord.quality === "diminished-seventh";
  if (by === -1 && step === 4) return "bV";
  // What lies outside the major scale lies above its tonic as the black keys lie above C.
  if (by === 1 && rising && isBlackKey(above)) return `#${ROMAN[step]}`;
  return USUAL_NUMERALS[above]!;
}
