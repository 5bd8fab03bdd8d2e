/** How well what is heard fits a chord. */
import type { Heard } from "./comping.ts";
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

/** What it costs when root, third or seventh are not heard at all. */
const MISSING: Readonly<Partial<Record<ChordToneRole, number>>> = { root: 0.05, third: 0.2, seventh: 0.15 };

/** A chord tone that has this share of the weight is heard in full. */
const HEARD_IN_FULL = 0.15;

const BASS_ROOT = 0.45;
const BASS_TONE = 0.05;

/** A chord as weights of the semitones above its root. */
export interface Profile {
  readonly rootClass: number;
  readonly tones: readonly number[];
  /** What it costs that a semitone is not heard at all. */
  readonly missing: readonly number[];
  readonly bass: readonly number[];
}

export function profileOf(chord: Chord): Profile {
  const tones: number[] = Array.from({ length: 12 }, (_, semitones) =>
    semitones === 2 || semitones === 9 ? ADDED_WEIGHT : FOREIGN_WEIGHT,
  );
  const missing = new Array<number>(12).fill(0);
  const bass = new Array<number>(12).fill(0);
  for (const { semitones, role } of chord.tones) {
    tones[semitones] = TONE_WEIGHTS[role];
    missing[semitones] = MISSING[role] ?? 0;
    bass[semitones] = role === "root" ? BASS_ROOT : BASS_TONE;
  }
  return { rootClass: chord.rootClass, tones, missing, bass };
}

/**
 * From about -1 (none of the notes belong to the chord) to about 1.5 (root in the bass, third and seventh above it);
 * 0 where nothing is heard. `above` raises the chord by semitones.
 */
export function fitOf(heard: Heard, profile: Profile, above = 0): number {
  if (heard.weight === 0) return 0;
  let fit = 0;
  for (let semitones = 0; semitones < 12; semitones++) {
    const pitchClass = (profile.rootClass + above + semitones) % 12;
    const share = heard.classes[pitchClass]!;
    fit += share * profile.tones[semitones]! + heard.bass[pitchClass]! * profile.bass[semitones]!;
    const absent = profile.missing[semitones]!;
    if (absent > 0 && share < HEARD_IN_FULL) fit -= absent * (1 - share / HEARD_IN_FULL);
  }
  return fit;
}
