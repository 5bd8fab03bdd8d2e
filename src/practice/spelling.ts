import type { Chord, Key } from "../chart/index.ts";

const LETTERS = "CDEFGAB";
const LETTER_CLASS = [0, 2, 4, 5, 7, 9, 11] as const;
/** Letters above the root for each number of semitones: the minor third is a third, whatever it does. */
const STEPS = [0, 1, 1, 2, 2, 3, 4, 4, 5, 5, 6, 6] as const;
const FLATS = ["C", "Db", "D", "Eb", "E", "F", "Gb", "G", "Ab", "A", "Bb", "B"] as const;
const SHARPS = ["C", "C#", "D", "D#", "E", "F", "F#", "G", "G#", "A", "A#", "B"] as const;

/**
 * How a pitch is written over a chord: letters follow the chord, but no double accidentals, and no Cb, Fb, E# or B#.
 *
 * @example spellOver(63, c7, cMajor) // "Eb4"
 */
export function spellOver(pitch: number, chord: Chord, key: Key): string {
  const above = (((pitch - chord.rootClass) % 12) + 12) % 12;
  const letter = (LETTERS.indexOf(chord.root[0]!) + STEPS[above]!) % 7;
  const alter = ((((pitch - LETTER_CLASS[letter]!) % 12) + 18) % 12) - 6;
  const name = LETTERS[letter]! + (alter > 0 ? "#".repeat(alter) : "b".repeat(-alter));
  if (Math.abs(alter) > 1 || ["Cb", "Fb", "E#", "B#"].includes(name)) {
    const plain = (key.tonic.includes("#") ? SHARPS : FLATS)[((pitch % 12) + 12) % 12]!;
    return plain + octaveOf(pitch, plain);
  }
  return name + octaveOf(pitch, name);
}

function octaveOf(pitch: number, name: string): number {
  const alter = name.includes("#") ? 1 : name.includes("b") ? -1 : 0;
  return Math.floor((pitch - alter) / 12) - 1;
}
