/**
 * Which place of the beat a performed onset stands for. The grid of a beat is the one that explains its onsets best:
 * no two strokes stand on one place, displacements are small, and a finer grid costs what it is rarer. A swung
 * off-beat stands for the ".5" that a musician writes, and is early or late against the place where this take's
 * off-beats fall, not against the middle of the beat: swing is no lateness.
 */
import { median } from "d3-array";

/** An onset's place: in beats from the beat's start, as written and as this take's time feel plays it. */
export interface GridPlace {
  readonly written: number;
  readonly played: number;
}

/** A way to divide a beat into equal parts; two parts may be swung. */
interface BeatGrid {
  readonly parts: number;
  /** What the choice costs with so many strokes in the beat, in nats. */
  readonly price: (strokes: number) => number;
}

/**
 * How often beats are divided into so many parts, and the share of the parts that are struck, counted in the beats of
 * half of the open solos (`npm run report -- places`), where pairs are written as eighths however they swing. Triplets
 * are taken as struck less than counted, since their own long and short cannot be told from swung eighths.
 */
const SIMPLE_GRIDS: readonly BeatGrid[] = [
  [2, 0.57, 0.75],
  [3, 0.077, 0.7],
  [4, 0.25, 0.63],
  [5, 0.013, 0.79],
  [6, 0.059, 0.6],
  [7, 0.0034, 0.77],
  [8, 0.016, 0.58],
  [10, 0.0042, 0.59],
  [12, 0.0024, 0.52],
  [16, 0.00081, 0.35],
  [24, 0.00024, 0.68],
].map(([parts, beats, struck]) => ({
  parts: parts!,
  price: (strokes) =>
    -Math.log(beats!) - strokes * Math.log(struck!) - Math.max(0, parts! - strokes) * Math.log(1 - struck!),
}));

/** Parts of an eighth in compound meters, where the eighth is by far the commonest. [practice] */
const COMPOUND_GRIDS: readonly BeatGrid[] = [
  { parts: 1, price: () => 0 },
  { parts: 2, price: () => 1.5 },
  { parts: 3, price: () => 3 },
  { parts: 4, price: () => 3.5 },
];

/** Displacement of onsets from their place as a share of the beat, and in seconds: of half of the open solos. */
const SPREAD = { share: 0.04, seconds: 0.008 };
/** Off-beats move more than beats do. */
const OFF_BEAT_SPREAD = 1.3;
/** A displacement beyond this many nats is a slip and tells no more against a grid. */
const MOST = 12;
/** Two strokes on one place, in nats: only where no grid has room for them. */
const SHARED = 30;
/** From here on in a beat a stroke may stand for the beat that follows. */
const EARLY_FROM = 0.6;

/**
 * Snaps onsets of one line to the grid.
 *
 * @param phases positions in pulses (quarter notes; eighths in compound meters), rising
 * @param joined true where an onset belongs to the stroke before it
 * @param pulse seconds of a pulse at an onset
 * @param swing place of the off-beat at an onset, as a share of the beat, .5 to .8; null for grids without swing
 * @returns written and played place of each onset in pulses
 */
export function snapOnsets(
  phases: readonly number[],
  joined: (index: number) => boolean,
  pulse: (index: number) => number,
  swing: ((index: number) => number) | null,
): GridPlace[] {
  const strokes = phases.flatMap((_, i) => (i > 0 && joined(i) ? [] : [i]));
  const places = new Array<GridPlace>(phases.length);
  for (const { beat, first, choice } of bestBeats(phases, strokes, pulse, swing)) {
    choice.forEach((place, k) => {
      const until = strokes[first + k + 1] ?? phases.length;
      for (let i = strokes[first + k]!; i < until; i++) {
        places[i] = { written: beat + place.written, played: beat + place.played };
      }
    });
  }
  return places;
}

/** The strokes of one beat on their places. */
interface BeatFit {
  readonly beat: number;
  /** Index of its first stroke. */
  readonly first: number;
  readonly cost: number;
  readonly choice: readonly GridPlace[];
}

/**
 * The cheapest way through all beats: the last stroke of each may stand for the beat that follows, if that is not
 * taken by a stroke of its own.
 */
function bestBeats(
  phases: readonly number[],
  strokes: readonly number[],
  pulse: (index: number) => number,
  swing: ((index: number) => number) | null,
): readonly BeatFit[] {
  type Way = { readonly cost: number; readonly last: BeatFit | null; readonly before: Way | null };
  const beatOf = (stroke: number) => Math.floor(phases[strokes[stroke]!]!);
  // Ways to here that kept all strokes in their beats, and those that handed the last one on.
  let [kept, handed]: [Way, Way | null] = [{ cost: 0, last: null, before: null }, null];
  let start = 0;
  while (start < strokes.length) {
    const beat = beatOf(start);
    let end = start + 1;
    while (end < strokes.length && beatOf(end) === beat) end++;
    const at = strokes[start]!;
    const setting = {
      beat,
      spread: SPREAD.share + SPREAD.seconds / pulse(at),
      swing: swing === null ? null : swing(at),
    };
    const snapped = (first: number, until: number) =>
      fitBeat(
        strokes.slice(first, until).map((i) => phases[i]! - beat),
        first,
        setting,
      );
    const through = (until: number): Way => {
      const own = snapped(start, until);
      const alone: Way = { cost: kept.cost + own.cost, last: own, before: kept };
      if (handed === null) return alone;
      const more = snapped(start - 1, until);
      const cost = handed.cost + more.cost;
      return cost < alone.cost ? { cost, last: more, before: handed } : alone;
    };
    const mayHand = phases[strokes[end - 1]!]! - beat > EARLY_FROM;
    const [all, butLast] = [through(end), mayHand ? through(end - 1) : null];
    const next = end < strokes.length ? beatOf(end) : null;
    if (butLast !== null && next !== beat + 1) {
      // Nothing is struck in the beat that follows: the early stroke stands there alone.
      const alone = fitBeat([phases[strokes[end - 1]!]! - beat - 1], end - 1, { ...setting, beat: beat + 1 });
      const way = { cost: butLast.cost + alone.cost, last: alone, before: butLast };
      [kept, handed] = [way.cost < all.cost ? way : all, null];
    } else {
      [kept, handed] = [all, butLast];
    }
    start = end;
  }
  const fits: BeatFit[] = [];
  for (let way: Way | null = kept; way !== null; way = way.before) if (way.last !== null) fits.push(way.last);
  return fits;
}

interface BeatSetting {
  readonly beat: number;
  /** Usual displacement on a beat, as a share of it. */
  readonly spread: number;
  /** Place of the off-beat; null in compound meters. */
  readonly swing: number | null;
}

/** Chooses the grid of a beat and a place for each of its strokes, which keep their order. */
function fitBeat(phases: readonly number[], first: number, { beat, spread, swing }: BeatSetting): BeatFit {
  let best: BeatFit = { beat, first, cost: phases.length === 0 ? 0 : Number.POSITIVE_INFINITY, choice: [] };
  if (phases.length === 0) return best;
  for (const { parts, price } of swing === null ? COMPOUND_GRIDS : SIMPLE_GRIDS) {
    const dear = price(phases.length);
    if (dear >= best.cost) continue;
    const places = Array.from({ length: parts }, (_, n) => ({
      written: n / parts,
      played: parts === 2 && n === 1 && swing !== null ? swing : n / parts,
    }));
    const { cost, choice } = inOrder(phases, places, spread);
    if (dear + cost < best.cost) best = { beat, first, cost: dear + cost, choice };
  }
  return best;
}

/** The cheapest rising choice of places for rising phases, by dynamic programming. */
function inOrder(
  phases: readonly number[],
  places: readonly GridPlace[],
  spread: number,
): { readonly cost: number; readonly choice: readonly GridPlace[] } {
  const from: Int16Array[] = [];
  let costs = new Float64Array(places.length);
  phases.forEach((phase, k) => {
    const next = new Float64Array(places.length);
    const back = new Int16Array(places.length);
    // The cheapest place of the stroke before that lies under this one.
    let under = -1;
    places.forEach(({ played }, p) => {
      const width = p === 0 ? spread : spread * OFF_BEAT_SPREAD;
      const own = Math.min(MOST, (phase - played) ** 2 / (2 * width * width));
      if (k > 0) {
        const shared = costs[p]! + SHARED;
        const lower = under < 0 ? Number.POSITIVE_INFINITY : costs[under]!;
        back[p] = lower <= shared ? under : p;
        next[p] = own + Math.min(lower, shared);
        if (under < 0 || costs[p]! < costs[under]!) under = p;
      } else next[p] = own;
    });
    from.push(back);
    costs = next;
  });
  let at = costs.reduce((least, cost, p) => (cost < costs[least]! ? p : least), 0);
  const cost = costs[at]!;
  const choice: GridPlace[] = [];
  for (let k = phases.length - 1; k >= 0; k--) {
    choice.unshift(places[at]!);
    at = from[k]![at]!;
  }
  return { cost, choice };
}

/** The take's off-beats: their place in the beat over the whole take and around each beat. */
export interface SwingFeel {
  /** Median place of the off-beat as a share of the beat; .5 is straight, 2/3 is 2:1. */
  readonly median: number;
  at(beat: number): number;
}

/**
 * Measures where a take's off-beats fall: the median over beats with one onset between the beats, moved towards
 * the median of the eight beats around where enough were played there.
 *
 * @param phases onsets in quarter-note beats, rising
 */
export function swingFeel(phases: readonly number[]): SwingFeel {
  const found: { beat: number; place: number }[] = [];
  for (let i = 0; i < phases.length; i++) {
    const beat = Math.floor(phases[i]!);
    const place = phases[i]! - beat;
    if (place < 0.4 || place > 0.8) continue;
    const before = phases[i - 1] ?? Number.NEGATIVE_INFINITY;
    const after = phases[i + 1] ?? Number.POSITIVE_INFINITY;
    // Neighbours inside the beat make it a triplet or sixteenths.
    if (before > beat + 0.15 || after < beat + 0.85) continue;
    found.push({ beat, place });
  }
  const middle = median(found, (f) => f.place) ?? 0.5;
  const trust = found.length / (found.length + 2);
  const take = 0.55 + (middle - 0.55) * trust;
  return {
    median: take,
    at(beat) {
      const near = found.slice(lowerBound(found, beat - 8), lowerBound(found, beat + 9)).map((f) => f.place);
      const local = median(near);
      return local === undefined ? take : take + (local - take) * (near.length / (near.length + 6));
    },
  };
}

function lowerBound(found: readonly { beat: number }[], beat: number): number {
  let low = 0;
  let high = found.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (found[middle]!.beat < beat) low = middle + 1;
    else high = middle;
  }
  return low;
}
