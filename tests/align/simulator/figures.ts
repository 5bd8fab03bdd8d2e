/**
 * How human hands stray from the grid. Every figure is recalled from the literature named beside it and so marked
 * [memory]; where a range of players is reported, the simulator draws from the range.
 */
export const FIGURES = {
  /** Standard deviation of single onsets around the beat (motor noise), seconds. Wing & Kristofferson 1973; Repp 2005 [memory]. */
  motor: { low: 0.006, high: 0.014 },
  /** Standard deviation of the inner clock from beat to beat, share of the beat. Repp 2005: 2 to 4 % without a click [memory]. */
  clock: { low: 0.01, high: 0.035 },
  /** Spread of the notes of one chord, seconds. Palmer 1989; Goebl 2001 [memory]. */
  chordSpread: { low: 0.003, high: 0.01 },
  /** Step from note to note of a rolled chord, seconds [practice]. */
  roll: { low: 0.018, high: 0.045 },
  /**
   * Line against comping hand, seconds; the melody leads by about 0.02 to 0.03 in notated music (Palmer 1996; Goebl
   * 2001), jazz lines lie up to 0.05 behind the beat at slow tempos (Ellis 1991; Friberg & Sundström 2002) [memory].
   */
  lineDelay: { low: -0.02, high: 0.03 },
  /** Standard deviation of the off-beat's place, share of the beat. Friberg & Sundström 2002 [memory]. */
  swingSpread: { low: 0.01, high: 0.03 },
  /** Share of notes struck wrongly, and of notes missed or added. Repp 1996; Palmer & van de Sande 1993: about 3 % [memory]. */
  wrong: { low: 0, high: 0.03 },
  missed: { low: 0, high: 0.03 },
  added: { low: 0, high: 0.01 },
  /** Drift of the tempo over a take without a click, share of the tempo. Madison 2001; Collier & Collier 1994 [memory]. */
  drift: { low: -0.15, high: 0.15 },
  /** Sway of the tempo around its course within a phrase, share [practice]. */
  sway: { low: 0, high: 0.05 },
  /** Depth of phrase arches in rubato, share of the tempo. Repp 1992; Todd 1992: the slowest beats take twice the time [memory]. */
  rubato: { low: 0.25, high: 0.5 },
} as const;
