/** A pitch name taken apart. */
export interface PitchParts {
  readonly step: string;
  readonly alter: number;
  readonly octave: number;
}

/** @throws RangeError when the text is no pitch name like "Eb4". */
export function pitchParts(spelling: string): PitchParts {
  const parts = /^([A-G])(b*|#*)(-?\d+)$/.exec(spelling);
  if (parts === null) throw new RangeError(`"${spelling}" is no pitch name; expected one like "Eb4"`);
  const [, step, signs, octave] = parts;
  return {
    step: step!,
    alter: signs!.startsWith("b") ? -signs!.length : signs!.length,
    octave: Number(octave),
  };
}
