/**
 * `npm run report -- align [TAKES PER CLASS] [FIRST SEED]`: how well simulated takes are laid over their charts, by
 * class. The takes are invented (tests/align/simulator); nothing in them is tuned to the seeds printed here.
 *
 * `npm run report -- align human [SOLOS] [teach|test] [GIVEN...]`: how well improvised solos of the open data are laid,
 * each by tables of players of other instruments, of the half that weights were chosen by, of the other or of both (as is
 * usual), under each condition or under those whose names hold one of the words: `align human 30 teach told comping`.
 */
import { type Measured, measure } from "../align/measure.ts";
import { CLASSES, drawPerformance, type PerformanceClass } from "../align/simulator/index.ts";
import { reportHumans } from "./align-human.ts";
import { calibration } from "./calibration.ts";

export interface ClassFigures {
  readonly takes: number;
  /** Mean F-measure of the beats (±70 ms), and the share of takes at 0.97 or better. */
  readonly beats: number;
  readonly goodBeats: number;
  /** Share of takes with the right number of choruses. */
  readonly choruses: number;
  /** Share of takes with every bar line within 50 ms. */
  readonly barsWithin: number;
  /** Share of chord changes within 250 ms. */
  readonly changes: number;
  /** Share of notes on their written place. */
  readonly places: number;
  readonly hands: number;
  readonly methods: Readonly<Record<string, number>>;
  readonly bars: Measured["bars"];
  readonly failed: readonly { readonly seed: number; readonly measured: Measured }[];
}

/** Measures `takes` performances of a class from a seed on. Solos alone are given their tempo, beginners are not. */
export function classFigures(kind: PerformanceClass, takes: number, firstSeed: number): ClassFigures {
  const all: { seed: number; measured: Measured }[] = [];
  for (let seed = firstSeed; seed < firstSeed + takes; seed++) {
    const performance = drawPerformance(kind, seed);
    all.push({ seed, measured: measure(performance, kind === "solo alone" ? performance.spec.tempo : null) });
  }
  const mean = (value: (m: Measured) => number) =>
    all.reduce((sum, { measured }) => sum + value(measured), 0) / all.length;
  const methods: Record<string, number> = {};
  for (const { measured } of all) {
    methods[measured.alignment.method] = (methods[measured.alignment.method] ?? 0) + 1;
  }
  const placed = all.filter(({ measured }) => measured.places !== null);
  return {
    takes,
    beats: mean((m) => m.beats),
    goodBeats: mean((m) => (m.beats >= 0.97 ? 1 : 0)),
    choruses: mean((m) => (m.choruses ? 1 : 0)),
    barsWithin: mean((m) => (m.worstBar <= 0.05 ? 1 : 0)),
    changes: mean((m) => m.changes),
    places: placed.reduce((sum, { measured }) => sum + measured.places!, 0) / Math.max(1, placed.length),
    hands: mean((m) => m.hands),
    methods,
    bars: all.flatMap(({ measured }) => measured.bars),
    failed: all.filter(({ measured }) => isFailure(kind, measured)),
  };
}

function isFailure(kind: PerformanceClass, m: Measured): boolean {
  switch (kind) {
    case "click":
      return m.worstBar > 0.05;
    case "steady":
      return m.beats < 0.97 || !m.choruses;
    case "rubato":
      return m.changes < 0.92;
    case "solo alone":
      return m.beats < 0.95;
    case "beginner":
      return false;
  }
}

/** Bars from which on a row of the reliability table says something: bars of one take are right or wrong together. */
export const ENOUGH_BARS = 100;

/**
 * Prints class by class as it is measured. The reliability table counts one kind of takes more, for
 * which no aim is set: beginners, who are up to twice as uneven, half of them with one hand alone.
 */
export function report(args: string[]): void {
  if (args[0] === "human") {
    reportHumans(args.slice(1));
    return;
  }
  const takes = Number(args[0] ?? 60);
  const firstSeed = Number(args[1] ?? 1000);
  const percent = (x: number) => `${(100 * x).toFixed(1)} %`;
  const bars: Measured["bars"][number][] = [];
  const tables: [string, Measured["bars"]][] = [];
  for (const kind of CLASSES) {
    const figures = classFigures(kind, takes, firstSeed);
    bars.push(...figures.bars);
    tables.push([kind, figures.bars]);
    console.log(
      `${kind}: ${figures.takes} takes, seeds ${firstSeed} on; methods ${JSON.stringify(figures.methods)}`,
    );
    console.log(
      `  beats F ${figures.beats.toFixed(4)}; at least 0.97 in ${percent(figures.goodBeats)} of takes`,
    );
    console.log(`  right number of choruses ${percent(figures.choruses)}`);
    console.log(`  every bar line within 50 ms ${percent(figures.barsWithin)} of takes`);
    console.log(`  chord changes within 250 ms ${percent(figures.changes)}`);
    console.log(
      `  notes on their written place ${percent(figures.places)}; in their hand ${percent(figures.hands)}`,
    );
    if (figures.failed.length > 0) {
      console.log(`  below the aim: seeds ${figures.failed.map(({ seed }) => seed).join(" ")}`);
    }
  }
  for (const [kind, rows] of [...tables, ["all classes", bars] as const]) {
    console.log(`confidence of bars, said and found, ${kind}:`);
    for (const row of calibration(rows)) {
      const few = row.bars < ENOUGH_BARS ? ", few" : "";
      console.log(`  said ${percent(row.said)}  right ${percent(row.right)}  (${row.bars} bars${few})`);
    }
  }
}
