/** Draws performances by class, from seeds, over charts of the trade's usual kinds. */
import { parseChart } from "../../../src/chart/index.ts";
import type { Chart } from "../../../src/chart/types.ts";
import { type Performance, type PerformanceSpec, perform } from "./perform.ts";
import { seeded } from "./random.ts";

/** The last one is for the confidence alone: players up to twice as uneven as those of the literature. */
export const CLASSES = ["click", "steady", "rubato", "solo alone", "beginner"] as const;
export type PerformanceClass = (typeof CLASSES)[number];

/** Progressions of the common stock; nobody's compositions. */
const CHARTS: readonly { text: string; weight: number }[] = [
  {
    weight: 3,
    text: "key: F\nmeter: 4/4\nidiom: blues\n| F7 | Bb7 | F7 | F7 | Bb7 | Bb7 | F7 | D7 | Gm7 | C7 | F7 D7 | Gm7 C7 |",
  },
  {
    weight: 2,
    text: "key: G\nmeter: 4/4\nidiom: blues\n| G7 | G7 | G7 | G7 | C7 | C7 | G7 | G7 | D7 | C7 | G7 | D7 |",
  },
  {
    weight: 2,
    text: "key: Cm\nmeter: 4/4\nidiom: blues\n| Cm7 | Fm7 | Cm7 | Cm7 | Fm7 | Fm7 | Cm7 | Cm7 | Ab7 | G7 | Cm7 | G7 |",
  },
  {
    weight: 2,
    text: "key: Bb\nmeter: 4/4\nidiom: standard\n| Bb6 G7 | Cm7 F7 | Dm7 G7 | Cm7 F7 | Bb7 | Eb7 | Dm7 G7 | Cm7 F7 | Bb6 G7 | Cm7 F7 | Dm7 G7 | Cm7 F7 | Bb7 | Eb7 | Cm7 F7 | Bb6 | D7 | D7 | G7 | G7 | C7 | C7 | F7 | F7 | Bb6 G7 | Cm7 F7 | Dm7 G7 | Cm7 F7 | Bb7 | Eb7 | Cm7 F7 | Bb6 |",
  },
  {
    weight: 2,
    text: "key: Eb\nmeter: 4/4\nidiom: standard\n| Ebmaj7 | Fm7 Bb7 | Ebmaj7 | Bbm7 Eb7 | Abmaj7 | Abm7 Db7 | Gm7 C7 | Fm7 Bb7 | Ebmaj7 | Fm7 Bb7 | Gm7b5 | C7 | Fm7 | Bb7 | Eb6 C7 | Fm7 Bb7 |",
  },
  {
    weight: 1,
    text: "key: Am\nmeter: 4/4\nidiom: standard\n| Am7 | Dm7 G7 | Cmaj7 | Fmaj7 | Bm7b5 | E7 | Am7 | E7 |",
  },
  {
    weight: 2,
    text: "key: C\nmeter: 3/4\nidiom: standard\n| Cmaj7 | A7 | Dm7 | G7 | Em7 | A7 | Dm7 | G7 | Gm7 | C7 | Fmaj7 | Bb7 | Em7 A7:1 | Dm7:2 G7:1 | C6 | G7 |".replace(
      "Em7 A7:1",
      "Em7:2 A7:1",
    ),
  },
  {
    weight: 1,
    text: "key: Dm\nmeter: 6/8\nidiom: standard\n| Dm7 | Gm7 | A7 | Dm7 | Bbmaj7 | Gm7 | Em7b5 | A7 |",
  },
  {
    weight: 2,
    text: "key: A\nmeter: 12/8\nidiom: blues\n| A7 | D7 | A7 | A7 | D7 | D7 | A7 | F#7 | Bm7 | E7 | A7 | E7 |",
  },
];

let parsed: { chart: Chart; weight: number }[] | null = null;

function charts(): { chart: Chart; weight: number }[] {
  parsed ??= CHARTS.map(({ text, weight }) => ({ chart: parseChart(text), weight }));
  return parsed;
}

/** Draws the spec of one performance of a class. */
export function drawSpec(kind: PerformanceClass, seed: number): PerformanceSpec {
  const random = seeded(seed * 31 + CLASSES.indexOf(kind) * 1_000_003 + 5);
  const pool = charts().flatMap(({ chart, weight }) => Array<Chart>(weight).fill(chart));
  const chart = random.pick(pool);
  const form = (chart.bars.length * chart.meter.beats * 4) / chart.meter.unit;
  // Evenly over the logarithm: as many slow takes as fast ones.
  const fastest = kind === "rubato" ? 110 : 280;
  let tempo = Math.exp(random.between(Math.log(50), Math.log(fastest)));
  if (chart.meter.unit >= 8) tempo = Math.max(75, Math.min(240, tempo));
  // Takes of at most five minutes, at least one chorus.
  const longest = Math.max(1, Math.floor((300 * tempo) / 60 / form));
  const choruses = random.whole(1, Math.min(8, longest, kind === "rubato" ? 2 : 8));
  const swingTop = Math.max(1, Math.min(3, 600 / tempo - 1));
  const pickups = chart.meter.unit >= 8 ? [0, 0, 0, 0.5, 1, 1.5] : [0, 0, 0, 0.5, 1, 1.5, 2];
  const twoHands = kind === "beginner" ? random.chance(0.5) : kind !== "solo alone";
  const comping = !twoHands
    ? "none"
    : chart.meter.unit >= 8
      ? random.pick(["oom-pah", "shells"] as const)
      : chart.meter.beats === 3
        ? random.pick(["oom-pah", "shells", "walking"] as const)
        : random.pick(
            kind === "rubato"
              ? (["shells", "voicings", "shells"] as const)
              : (["walking", "shells", "voicings", "oom-pah"] as const),
          );
  return {
    seed,
    chart,
    choruses,
    tempo: Math.round(tempo * 10) / 10,
    timing:
      kind === "rubato"
        ? "rubato"
        : kind === "click"
          ? "click"
          : kind === "steady" || kind === "beginner"
            ? "steady"
            : random.pick(["click", "steady"] as const),
    swing: chart.meter.unit >= 8 || random.chance(0.25) ? 1 : random.between(1, swingTop),
    pickup: random.pick(pickups),
    tagBars: random.chance(0.2) ? random.whole(1, 2) : 0,
    comping,
    fileKnows: kind === "click" && random.chance(0.4),
    pauses: kind === "steady" && random.chance(0.2) ? random.whole(1, 2) : 0,
    slips: kind === "steady" && random.chance(0.15) ? 1 : 0,
    ...(kind === "beginner" ? { unrest: random.between(1.3, 2) } : {}),
    lineRange: [60, 86],
    compingAround: 50,
  };
}

/** One performance of a class. */
export function drawPerformance(kind: PerformanceClass, seed: number): Performance {
  return perform(drawSpec(kind, seed));
}
