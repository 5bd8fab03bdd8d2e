/** Notes and fingers in English. */

const ACCIDENTALS: Readonly<Record<string, string>> = {
  "": "",
  b: " flat",
  bb: " double flat",
  "#": " sharp",
  "##": " double sharp",
};

/**
 * A note name in words, without its octave.
 * @example noteInWords("Eb4") // "E flat"
 */
export function noteInWords(spelling: string): string {
  const [, letter = spelling, accidental = ""] = /^([A-G])(#{0,2}|b{0,2})-?\d*$/.exec(spelling) ?? [];
  return letter + (ACCIDENTALS[accidental] ?? "");
}

/**
 * Names of chords, keys and notes with the accidentals of print.
 * @example withAccidentals("Bb7(#9)") // "B♭7(♯9)"
 */
export function withAccidentals(symbol: string): string {
  return symbol
    .replace(/([A-G])b/g, "$1♭")
    .replace(/b(?=\d)/g, "♭")
    .replace(/#/g, "♯");
}

const FINGERS = ["", "thumb", "index finger", "middle finger", "ring finger", "little finger"] as const;

/** "index finger" for 2: the name of a finger, as one speaks of a hand. */
export function fingerName(finger: number): string {
  return FINGERS[finger] ?? "";
}

/** "second finger" for 2: the number of a finger, as one speaks of a fingering. */
export function fingerNumbered(finger: number): string {
  return ["", "thumb", "second finger", "third finger", "fourth finger", "little finger"][finger] ?? "";
}
