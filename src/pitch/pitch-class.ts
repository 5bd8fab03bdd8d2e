/** Pitch classes: semitones above C, 0 to 11. Pitches are MIDI numbers, middle C 60. */

/** `value` brought into 0 up to `by`, never negative: `mod(-1, 12)` is 11. */
export function mod(value: number, by: number): number {
  const rest = value % by;
  return rest < 0 ? rest + by : rest;
}

/** Pitch class of a pitch, or an interval within the octave: -1 semitone is 11. */
export function mod12(semitones: number): number {
  return mod(semitones, 12);
}

/** Bit n is set where pitch class n is a black key: C#, D#, F#, G#, A#. */
const BLACK_KEYS = 0b010101001010;

/** True for the black keys of MIDI numbers, negative ones too. */
export function isBlackKey(pitch: number): boolean {
  return ((BLACK_KEYS >> mod12(pitch)) & 1) === 1;
}
