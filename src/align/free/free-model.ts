/** What is known of beats in free playing with both hands, and how far it is believed. */

/** Parts of a beat in which strokes between two beats are counted. */
export const PARTS = 24;

/** Counted in performances with known beats and chords (`npm run report -- two-handed tables`). */
export interface FreeTables {
  /** Logistic rules: the constant, then a weight for each sign: a stroke falls with a beat; a beat with a bar line. */
  readonly beat: readonly number[];
  readonly bar: readonly number[];
  /** Log odds of strokes with a beat, and of beats with a bar line. */
  readonly beatOdds: number;
  readonly barOdds: number;
  /** Log shares of beats that are struck, and of those that are not. */
  readonly struck: number;
  readonly silent: number;
  /** Log density of strokes between two beats, part by part, against an even one. */
  readonly parts: readonly number[];
  /** Log shares of a chord's roles among all keys, and among lowest ones, against keys drawn blindly. */
  readonly roles: readonly number[];
  readonly lowRoles: readonly number[];
  /** Spread of the log of a beat's length around that of those before. */
  readonly spread: number;
}

/**
 * Powers of the evidence and prices in nats: between the better two of three that were tried of each. The best of each,
 * chosen without a composer, read his pieces worse (DEVELOPERS.md).
 */
export const FREE = {
  beat: 1,
  bar: 1,
  parts: 0.25,
  chord: 1.1,
  /** Keys of one stroke tell less together than one by one. */
  together: -0.3,
  /** Beats that are put between strokes. */
  between: -0.3,
  /** Pull of a beat's length towards that of the reading, and the spread of lengths (log) in it. */
  pull: 0.3,
  width: 0.35,
  /** How seldom a beat changes far: degrees of freedom of Student's distribution. */
  freedom: 2,
  /** How far a beat's length may be from those before it (log). */
  shorter: -0.55,
  longer: 0.65,
  /** Share of what is known of the length that is kept from beat to beat. */
  keeps: 0.5,
  /** Prices of beginning inside the first bar, before the form, of each stroke left out before the first beat. */
  inside: 2,
  pickup: 1,
  skipped: 0.7,
  /** Of ending anywhere but within a bar of the form's end. */
  broken: 6,
  /** Usual seconds of a beat and their spread (log), and how much that counts for the whole take. */
  usual: 0.6,
  usualWidth: 0.6,
  usualPower: 0.5,
} as const;
