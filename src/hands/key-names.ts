import { type Chord, classOf, nameOf } from "../chart/index.ts";
import { degreeOn } from "./placements.ts";

const LETTERS = "CDEFGAB";

/**
 * Name of a key's pitch class as the chord spells it, letter by degree, with one accidental at most.
 *
 * @example keyNameOn(parseChord("C7")!, 63)   // "Eb"
 * @example keyNameOn(parseChord("Db7")!, 68)  // "Ab"
 */
export function keyNameOn(chord: Chord, pitch: number): string {
  const degree = degreeOn(chord, pitch);
  const steps = (Number(degree.replace(/[b#]/, "")) - 1) % 7;
  const letter = LETTERS.charAt((LETTERS.indexOf(chord.root.charAt(0)) + steps) % 7);
  const by = ((pitch - classOf(letter) + 18) % 12) - 6;
  if (Math.abs(by) > 1) return nameOf(pitch, by < 0 ? "flats" : "sharps");
  return letter + (by < 0 ? "b" : by > 0 ? "#" : "");
}
