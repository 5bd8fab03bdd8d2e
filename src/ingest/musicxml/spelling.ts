/** A transposition or an interval: letters and semitones, both upward. */
export interface Transposition {
  readonly steps: number;
  readonly semitones: number;
}

export const NO_TRANSPOSITION: Transposition = { steps: 0, semitones: 0 };

const LETTERS = "CDEFGAB";
const SEMITONES = [0, 2, 4, 5, 7, 9, 11];

/** "B", -1 -> "Bb"; fractions of a semitone are rounded. */
export function letterOf(step: string, alter: number): string {
  const signs = Math.round(alter);
  return step.toUpperCase() + (signs < 0 ? "b".repeat(-signs) : "#".repeat(signs));
}

/** Moves a note name without octave: "Bb" by a major second is "C". */
export function moveSpelling(name: string, by: Transposition): string {
  if (by.steps === 0 && by.semitones === 0) return name;
  const from = LETTERS.indexOf(name[0]!);
  const to = (((from + by.steps) % 7) + 7) % 7;
  const octaves = Math.floor((from + by.steps) / 7);
  const alter = alterOf(name) + SEMITONES[from]! + by.semitones - SEMITONES[to]! - 12 * octaves;
  return letterOf(LETTERS[to]!, alter);
}

/** The interval from a root up to a degree: "b3" is three semitones and two letters. */
export function intervalOf(degree: string): Transposition {
  const steps = Number.parseInt(degree.replace(/^[b#]+/, ""), 10) - 1;
  const alter = degree.startsWith("b") ? -degree.lastIndexOf("b") - 1 : degree.lastIndexOf("#") + 1;
  return { steps, semitones: SEMITONES[steps % 7]! + 12 * Math.floor(steps / 7) + alter };
}

/** A written pitch at the pitch at which it sounds. */
export function soundingPitch(
  step: string,
  alter: number,
  octave: number,
  by: Transposition,
): { readonly pitch: number; readonly spelling: string } {
  const letter = LETTERS.indexOf(step.toUpperCase());
  const pitch = 12 * (octave + 1) + SEMITONES[letter]! + Math.round(alter) + by.semitones;
  const place = letter + by.steps;
  const spelledOctave = octave + Math.floor(place / 7);
  return { pitch, spelling: `${moveSpelling(letterOf(step, alter), by)}${spelledOctave}` };
}

/** Letters moved by a transposition of so many semitones when the document does not say: the nearest usual interval. */
export function stepsOf(semitones: number): number {
  const within = [0, 1, 1, 2, 2, 3, 3, 4, 5, 5, 6, 6];
  const octaves = Math.floor(semitones / 12);
  return 7 * octaves + within[semitones - 12 * octaves]!;
}

/** Change in sharps of the key signature when music is moved by so many semitones: -2 for a whole step down. */
export function fifthsOf(semitones: number): number {
  return ((((semitones * 7 + 5) % 12) + 12) % 12) - 5;
}

function alterOf(name: string): number {
  let alter = 0;
  for (let i = 1; i < name.length; i++) alter += name[i] === "b" ? -1 : 1;
  return alter;
}
