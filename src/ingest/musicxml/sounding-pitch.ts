import { type Interval, moveName, nameOfStep, naturalClass, stepOf } from "../../pitch/index.ts";

/** A letter with the document's alteration: "B", -1 -> "Bb"; fractions of a semitone are rounded. */
export function writtenName(step: string, alter: number): string {
  return nameOfStep(stepOf(step.toUpperCase()), Math.round(alter));
}

/** A written pitch at the pitch at which it sounds. */
export function soundingPitch(
  step: string,
  alter: number,
  octave: number,
  by: Interval,
): { readonly pitch: number; readonly spelling: string } {
  const letter = stepOf(step.toUpperCase());
  const pitch = 12 * (octave + 1) + naturalClass(letter) + Math.round(alter) + by.semitones;
  const spelledOctave = octave + Math.floor((letter + by.steps) / 7);
  return { pitch, spelling: `${moveName(writtenName(step, alter), by)}${spelledOctave}` };
}
