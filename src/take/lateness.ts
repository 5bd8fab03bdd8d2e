/** How far a whole line lies behind or before a beat that it did not make, and how surely that can be told. */

/** A line against a beat. */
export interface Lateness {
  /** Share of a beat by which the line is late; early below 0. */
  readonly beats: number;
  /** 0 to 1: how much likelier this reading is than that on- and off-beats are each other's, moved the other way. */
  readonly sure: number;
}

/** Parts of a beat in which lateness and off-beats are sought. */
const PARTS = 120;
/**
 * Lateness of soloists in milliseconds, over the takes of half of the open solos: where most lie and how widely, and how
 * the few that lie further are spread.
 */
const USUAL = { middle: 20, spread: 22, further: 70, few: 0.1 };
/** Furthest early and late that is sought, in milliseconds. */
const REACH = { early: 100, late: 170 };
/** Place of the off-beat in the beat: its middle and its spread over takes, from even eighths to three to one. */
const OFF_BEAT = { middle: 0.57, spread: 0.06, from: 0.48, to: 0.76 };
/**
 * What share of a line's notes falls on the beat, on the off-beat, and on the quarters and thirds of the beat, in lines of
 * mostly eighths, sixteenths and triplets; and what share falls elsewhere.
 */
const MANNERS = [
  { on: 0.42, off: 0.36, quarter: 0.04, third: 0.02 },
  { on: 0.28, off: 0.26, quarter: 0.18, third: 0.02 },
  { on: 0.34, off: 0.18, quarter: 0.02, third: 0.17 },
] as const;
const ELSEWHERE = 0.1;
/** Displacement of notes from their place, as a share of the beat: on the beat, and off it. */
const SPREAD = { on: 0.06, off: 0.078 };
/** Notes of one take are moved together: so many of them tell as much as one alone. */
const TOGETHER = 4;
const MOST = 20;
/** Readings within so many milliseconds are one reading. */
const ONE_READING = 30;
/** Fewer onsets gather nowhere. [practice] */
const FEWEST = 8;

/**
 * Lateness of a line against a given beat. On- and off-beats are two hills over the beat; where they stand is sought
 * together, since late even eighths and early swung ones look alike one by one. Half a beat of lateness turns even
 * eighths into themselves: what soloists usually do then decides, and how surely is said.
 *
 * @param phases onsets of the line in beats of the given grid
 * @param beatSeconds usual length of a beat, in seconds
 */
export function latenessOf(phases: readonly number[], beatSeconds: number): Lateness {
  if (phases.length < FEWEST) return { beats: 0, sure: 0 };
  const counts = new Float64Array(PARTS);
  for (const phase of phases) {
    const part = Math.round((phase - Math.floor(phase)) * PARTS) % PARTS;
    counts[part] = counts[part]! + 1;
  }
  const toMs = (1000 * beatSeconds) / PARTS;
  const from = Math.max(-PARTS / 2, Math.ceil(-REACH.early / toMs));
  const to = Math.min(PARTS / 2, Math.floor(REACH.late / toMs));
  const told = Math.min(phases.length / TOGETHER, MOST) / phases.length;
  const filled = Int32Array.from(counts.keys()).filter((part) => counts[part] !== 0);
  const weights = Float64Array.from(filled, (part) => told * counts[part]!);
  const fits: { late: number; fit: number }[] = [];
  for (let late = from; late <= to; late++) {
    fits.push({ late, fit: bestHill(filled, weights, late) + Math.log(usual(late * toMs)) });
  }
  const best = fits.reduce((a, b) => (b.fit > a.fit ? b : a));
  const weight = ({ fit }: { fit: number }) => Math.exp(fit - best.fit);
  const all = fits.reduce((sum, one) => sum + weight(one), 0);
  const near = fits.filter(({ late }) => Math.abs(late - best.late) * toMs <= ONE_READING);
  return { beats: best.late / PARTS, sure: near.reduce((sum, one) => sum + weight(one), 0) / all };
}

/** Nats of the hills that explain weighted parts of a beat best, moved by so many parts. */
function bestHill(parts: Int32Array, weights: Float64Array, late: number): number {
  const count = parts.length;
  // Each density is written down twice, so that parts before the beat are found in it too.
  const from = late < 0 ? -late : PARTS - late;
  let fit = Number.NEGATIVE_INFINITY;
  for (const { price, nats } of hills()) {
    let sum = price;
    for (let i = 0; i < count; i++) sum += weights[i]! * nats[parts[i]! + from]!;
    if (sum > fit) fit = sum;
  }
  return fit;
}

/** How usual it is that a line is so many milliseconds late. */
function usual(ms: number): number {
  const { middle, spread, further, few } = USUAL;
  const bell = (width: number) => Math.exp(-(((ms - middle) / width) ** 2) / 2) / width;
  return (1 - few) * bell(spread) + few * bell(further);
}

interface Hills {
  readonly price: number;
  /** Twice over the beat. */
  readonly nats: Float64Array;
}

let allHills: readonly Hills[] | null = null;

/** The densities of all manners: the same for every line, and worked out for the first. */
function hills(): readonly Hills[] {
  allHills ??= MANNERS.flatMap(densities);
  return allHills;
}

/** Log densities of a manner's notes over the beat, for each place of its off-beat, with that place's price in nats. */
function densities(manner: (typeof MANNERS)[number]): Hills[] {
  const all: Hills[] = [];
  for (let off = OFF_BEAT.from; off <= OFF_BEAT.to; off += 0.02) {
    const places = [
      { at: 0, share: manner.on, spread: SPREAD.on },
      { at: off, share: manner.off, spread: SPREAD.off },
      ...[1 / 4, 3 / 4].map((at) => ({ at, share: manner.quarter, spread: SPREAD.off })),
      ...[1 / 3, 2 / 3].map((at) => ({ at, share: manner.third, spread: SPREAD.off })),
    ];
    const nats = Float64Array.from({ length: 2 * PARTS }, (_, turned) => {
      const part = turned % PARTS;
      let density: number = ELSEWHERE;
      for (const { at, share, spread } of places) {
        const apart = Math.abs(part / PARTS - at);
        const away = Math.min(apart, 1 - apart);
        density += (share * Math.exp(-((away / spread) ** 2) / 2)) / (spread * Math.sqrt(2 * Math.PI));
      }
      return Math.log(density);
    });
    all.push({ price: -(((off - OFF_BEAT.middle) / OFF_BEAT.spread) ** 2) / 2, nats });
  }
  return all;
}
