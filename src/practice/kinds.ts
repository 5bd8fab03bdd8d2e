/** Exercises that a finding can lead to; each has its maker in `makers.ts`. */
export const PRACTICE_KINDS = [
  "placements",
  "motif to every placement",
  "call and answer",
  "slides",
  "rests",
  "register ladder",
  "shared placements",
  "guide tones",
  "approach notes",
  "enclosures",
  "even pairs",
  "steady time",
  "entries",
  "improvisation",
] as const;

export type PracticeKind = (typeof PRACTICE_KINDS)[number];
