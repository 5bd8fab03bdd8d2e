import type { Chord } from "../chart/index.ts";
import { intervalOfDegree, nameOnStep, simpleName, stepOf } from "../pitch/index.ts";
import { degreeOn } from "./placements.ts";

/**
 * Name of a key's pitch class as the chord spells it, letter by degree, with one accidental at most.
 *
 * @example keyNameOn(parseChord("C7")!, 63)   // "Eb"
 * @example keyNameOn(parseChord("Db7")!, 68)  // "Ab"
 */
export function keyNameOn(chord: Chord, pitch: number): string {
  const { steps } = intervalOfDegree(degreeOn(chord, pitch));
  return simpleName(nameOnStep((stepOf(chord.root) + steps) % 7, pitch));
}
