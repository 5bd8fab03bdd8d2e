/** The two labels that every solo note gets. The rules stand in `harmonic-role.ts` and `line-role.ts`. */

/** A note against the chord that sounds at its onset. */
export const HARMONIC_ROLES = [
  "root",
  "third",
  "fifth",
  "seventh",
  "tension",
  "blue",
  "avoid",
  "outside",
] as const;

export type HarmonicRole = (typeof HARMONIC_ROLES)[number];

/** A note against its neighbours and the chord after it, in order of precedence. */
export const LINE_ROLES = [
  "anticipation",
  "suspension",
  "enclosure",
  "approach",
  "passing",
  "neighbour",
  "appoggiatura",
  "escape",
  "chord tone",
  "held colour",
  "free",
] as const;

export type LineRole = (typeof LINE_ROLES)[number];

/** How a line role is played, where there is more than one way; for the words. */
export const MANNERS = [
  "held",
  "repeated",
  "struck",
  "double neighbour",
  "chromatic",
  "diatonic",
  "double chromatic",
  "double diatonic",
  "upper",
  "lower",
  "unprepared",
  "by step",
  "by leap",
  "step up home",
  "step down home",
  "two steps up",
  "two steps down",
] as const;

export type Manner = (typeof MANNERS)[number];
