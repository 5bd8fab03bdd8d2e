import type { Chord, Key } from "../chart/index.ts";
import {
  accidentalOf,
  alterOf,
  fifthsOf,
  isBlackKey,
  keyboardName,
  mod12,
  nameOnStep,
  pitchNameAt,
  stepOf,
  withOctave,
} from "../pitch/index.ts";

/** Letters above the root for each number of semitones: the minor third is a third, whatever it does. */
const STEPS = [0, 1, 1, 2, 2, 3, 4, 4, 5, 5, 6, 6] as const;

/** White keys under the names of their neighbours: right in theory, and a nuisance on a practice sheet. */
const WHITE_AS_ALTERED: ReadonlySet<string> = new Set(["Cb", "Fb", "E#", "B#"]);

/**
 * How a pitch is written over a chord: letters follow the chord, but no double accidentals, and no Cb, Fb, E# or B#.
 *
 * @example spellOver(63, c7, cMajor) // "Eb4"
 */
export function spellOver(pitch: number, chord: Chord, key: Key): string {
  const steps = STEPS[mod12(pitch - chord.rootClass)]!;
  const name = nameOnStep((stepOf(chord.root) + steps) % 7, pitch);
  // The blue third keeps its letter: Cb over Ab7.
  const isMinorThird = mod12(pitch - chord.rootClass) === 3;
  if (Math.abs(alterOf(name)) > 1 || (WHITE_AS_ALTERED.has(name) && !isMinorThird)) {
    return keyboardName(pitch, key.tonic.includes("#") ? "sharps" : "flats");
  }
  return withOctave(name, pitch);
}

/**
 * How a note is written that rises by a half step into a target: on the letter below it, D sharp into E; white keys
 * keep their names. [practice]
 *
 * @example spellBelow(63, "E4") // "D#4"
 */
export function spellBelow(pitch: number, target: string): string {
  if (!isBlackKey(pitch)) return keyboardName(pitch, "sharps");
  const raised = fifthsOf(target) + DIATONIC_HALF_STEP;
  return Math.abs(accidentalOf(raised)) > 1 ? keyboardName(pitch, "sharps") : pitchNameAt(pitch, raised);
}

/** A half step down on the line of fifths, to the neighbouring letter. */
const DIATONIC_HALF_STEP = 5;
