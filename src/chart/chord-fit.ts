/** How well what is heard fits a chord. */
import type { Heard } from "./comping.ts";
import { mod12 } from "./pitch-name.ts";
import type { Chord, ChordToneRole } from "./types.ts";

/** What a sounding chord tone speaks for its chord. [practice] */
const TONE_WEIGHTS: Readonly<Record<ChordToneRole, number>> = {
  root: 1,
  third: 1.1,
  fifth: 0.6,
  seventh: 1.1,
  tension: 0.6,
};

/** What a ninth or thirteenth that the symbol does not name speaks: players add them. */
const ADDED_WEIGHT = 0.2;
const FOREIGN_WEIGHT = -0.9;

/** What it costs when third or seventh are not heard at all. */
const MISSING: Readonly<Partial<Record<ChordToneRole, number>>> = { third: 0.2, seventh: 0.15 };

/** A chord tone that has this share of the weight is heard in full. */
const HEARD_IN_FULL = 0.15;

const BASS_ROOT = 0.45;
const BASS_TONE = 0.05;

/**
 * From about -1 (none of the notes belong to the chord) to about 1.5 (root in the bass, third and seventh above it);
 * 0 where nothing is heard.
 */
export function fitOf(heard: Heard, chord: Chord, above = 0): number {
  if (heard.weight === 0) return 0;
  const root = chord.rootClass + above;
  let fit = 0;
  for (let semitones = 0; semitones < 12; semitones++) {
    const pitchClass = mod12(root + semitones);
    const tone = chord.tones.find((candidate) => candidate.semitones === semitones);
    const share = heard.classes[pitchClass]!;
    if (tone !== undefined) {
      fit += share * TONE_WEIGHTS[tone.role];
      fit -= (MISSING[tone.role] ?? 0) * (1 - Math.min(1, share / HEARD_IN_FULL));
      fit += heard.bass[pitchClass]! * (tone.role === "root" ? BASS_ROOT : BASS_TONE);
    } else {
      fit += share * (semitones === 2 || semitones === 9 ? ADDED_WEIGHT : FOREIGN_WEIGHT);
    }
  }
  return fit;
}
