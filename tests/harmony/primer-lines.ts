/** Lines that every primer writes the same, to test our spelling by and to fit its weights to. */
import type { Unspelled } from "../../src/harmony/tonal-spelling.ts";
import { pitchOf } from "./notation.ts";

/** Notes in order, one each half beat; "+" joins notes struck together. */
export function notesOf(text: string, signature: number, step = 0.5): Unspelled[] {
  return text.split(/\s+/).flatMap((word, i) =>
    word.split("+").map((name) => ({
      pitch: pitchOf(name),
      at: i * step,
      signature,
      place: null,
    })),
  );
}

/**
 * Name, signature, notes. Written as any primer writes them; chromatic scales with sharps rising and flats falling,
 * augmented and Neapolitan sixths, chords in thirds: Kostka & Payne [memory].
 */
export const PRIMER_LINES: readonly (readonly [string, number, string])[] = [
  ["C major", 0, "C4 D4 E4 F4 G4 A4 B4 C5"],
  ["B flat major", -2, "Bb3 C4 D4 Eb4 F4 G4 A4 Bb4"],
  ["E major", 4, "E4 F#4 G#4 A4 B4 C#5 D#5 E5"],
  ["G flat major", -6, "Gb4 Ab4 Bb4 Cb5 Db5 Eb5 F5 Gb5"],
  ["F sharp major", 6, "F#4 G#4 A#4 B4 C#5 D#5 E#5 F#5"],
  ["A harmonic minor", 0, "A4 B4 C5 D5 E5 F5 G#5 A5"],
  ["C harmonic minor", -3, "C4 D4 Eb4 F4 G4 Ab4 B4 C5"],
  ["G minor melodic", -2, "G4 A4 Bb4 C5 D5 E5 F#5 G5"],
  ["chromatic, rising in C", 0, "C4 C#4 D4 D#4 E4 F4 F#4 G4 G#4 A4"],
  ["chromatic, falling in C", 0, "C5 B4 Bb4 A4 Ab4 G4 Gb4 F4 E4 Eb4 D4 Db4 C4"],
  ["a raised fourth as lower neighbour in E flat", -3, "G4 Bb4 A4 Bb4 G4 F#4 G4 Eb4"],
  ["a minor subdominant in C", 0, "C4+E4+G4 C4+F4+Ab4 C4+E4+G4 C4+F4+Ab4 C4+E4+G4"],
  ["a secondary dominant in C", 0, "C4+E4+G4 A3+C#4+E4+G4 D4+F4+A4 G3+B3+D4+F4"],
  ["a dominant seventh in D flat", -5, "Ab3+C4+Eb4+Gb4 Db4+F4+Ab4"],
  ["a diminished seventh chord to D minor", -1, "C#4+E4+G4+Bb4 D4+F4+A4"],
  ["A melodic minor", 0, "A4 B4 C5 D5 E5 F#5 G#5 A5"],
  ["D harmonic minor", -1, "D4 E4 F4 G4 A4 Bb4 C#5 D5"],
  ["F sharp melodic minor", 3, "F#4 G#4 A4 B4 C#5 D#5 E#5 F#5"],
  ["C sharp harmonic minor", 4, "C#4 D#4 E4 F#4 G#4 A4 B#4 C#5"],
  ["F harmonic minor", -4, "F4 G4 Ab4 Bb4 C5 Db5 E5 F5"],
  ["B flat harmonic minor", -5, "Bb3 C4 Db4 Eb4 F4 Gb4 A4 Bb4"],
  ["B major without its signature", 0, "B4 C#5 D#5 E5 F#5 G#5 A#5 B5"],
  ["D flat major without its signature", 0, "Db4 Eb4 F4 Gb4 Ab4 Bb4 C5 Db5"],
  ["E major without its signature", 0, "E4 F#4 G#4 A4 B4 C#5 D#5 E5"],
  ["A flat major without its signature", 0, "Ab4 Bb4 C5 Db5 Eb5 F5 G5 Ab5"],
  ["chromatic, rising in F", -1, "F4 F#4 G4 G#4 A4 Bb4"],
  ["chromatic, rising in G", 1, "G4 G#4 A4 A#4 B4 C5"],
  ["chromatic, rising in E flat", -3, "Eb4 E4 F4 F#4 G4 Ab4 A4 Bb4"],
  ["chromatic, falling in G", 1, "G5 F#5 F5 E5 Eb5 D5"],
  ["chromatic, falling in F", -1, "F5 E5 Eb5 D5 Db5 C5"],
  ["chromatic, falling in D", 2, "D5 C#5 C5 B4 Bb4 A4"],
  ["lower neighbours in C", 0, "C5 B4 C5 D5 C#5 D5 E5 D#5 E5 G5 F#5 G5 A5 G#5 A5"],
  ["upper neighbours in C", 0, "E5 F5 E5 D5 Eb5 D5"],
  ["an Italian sixth in C minor", -3, "C4+Eb4+G4 Ab3+C4+F#4 G3+B3+G4"],
  ["a French sixth in C", 0, "C4+E4+G4 Ab3+C4+D4+F#4 G3+B3+D4+G4"],
  ["a Neapolitan sixth in C minor", -3, "C4+Eb4+G4 F3+Ab3+Db4 G3+B3+D4 C3+Eb4+G4"],
  ["a Neapolitan sixth in A minor", 0, "A3+C4+E4 D3+F3+Bb3 E3+G#3+B3 A3+C4+E4"],
  ["the dominant of VI in C", 0, "C4+E4+G4 E4+G#4+B4 A4+C5+E5"],
  ["a leading-note seventh to V in C", 0, "C4+E4+G4 F#4+A4+C5+Eb5 G4+B4+D5"],
  ["a raised fifth in C", 0, "C4+E4+G4 C4+E4+G#4 C4+F4+A4"],
  [
    "to A major without a change of signature",
    0,
    "C4+E4+G4 E4+G#4+B4 A4+C#5+E5 D4+F#4+A4 E4+G#4+B4 A4+C#5+E5",
  ],
  [
    "to A flat major without a change of signature",
    0,
    "C4+E4+G4 Ab3+C4+Eb4 Db4+F4+Ab4 Eb4+G4+Bb4 Ab3+C4+Eb4",
  ],
  ["IV in G flat", -6, "Gb4+Bb4+Db5 Cb4+Eb4+Gb4 Db4+F4+Ab4"],
  ["V7 in F sharp", 6, "F#4+A#4+C#5 C#4+E#4+G#4+B4 F#4+A#4+C#5"],
  ["a pentatonic line on F sharp in D", 2, "C#5 A#4 G#4 F#4"],
  ["a pentatonic line on F sharp in G", 1, "F#4 G#4 A#4 C#5"],
  ["a pentatonic line on E flat in D", 2, "Eb4 F4 G4 Bb4 C5"],
  ["a pentatonic line on D flat in C", 0, "Db4 Eb4 F4 Ab4 Bb4"],
  ["a pentatonic line on B in F", -1, "B4 C#5 D#5 F#5 G#5"],
  ["a pentatonic line on G flat in B flat", -2, "Gb4 Ab4 Bb4 Db5 Eb5"],
  ["a triad on E flat in D", 2, "Eb4+G4+Bb4"],
  ["a triad on B flat in A", 3, "Bb3+D4+F4"],
  ["a minor triad on G in A", 3, "G4+Bb4+D5"],
  ["a minor triad on C sharp in F", -1, "C#4+E4+G#4"],
  ["a dominant seventh on B flat in D", 2, "Bb3+D4+F4+Ab4"],
  ["a dominant seventh on E in F", -1, "E4+G#4+B4+D5"],
  ["a diminished seventh chord to E", 0, "D#4+F#4+A4+C5 E4+G4+C5"],
];
