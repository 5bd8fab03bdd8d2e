/** Holds one alignment against the truth of a simulated take. */
import { type Alignment, align, placeNotes } from "../../src/align/index.ts";
import { chordSpans } from "../../src/chart/index.ts";
import { partHands } from "../../src/parting/part-hands.ts";
import { secondsAt } from "../../src/take/index.ts";
import { scoreBeats } from "./beat-score.ts";
import type { Performance } from "./simulator/index.ts";

export interface Measured {
  readonly alignment: Alignment;
  /** Share of notes in the right hand. */
  readonly hands: number;
  /** F-measure of the beats. */
  readonly beats: number;
  readonly choruses: boolean;
  /** Largest distance of a bar line from the truth, in seconds; infinite when bars are missing. */
  readonly worstBar: number;
  /** For each bar: its confidence, and whether both its ends are within 70 ms (250 ms in rubato). */
  readonly bars: readonly { readonly confidence: number; readonly right: boolean }[];
  /** Share of chord changes within 250 ms. */
  readonly changes: number;
  /** Share of notes on their written place; null in rubato. */
  readonly places: number | null;
}

/** Parts, aligns and places a simulated take as the program does, and measures. */
export function measure(performance: Performance, tempo: number | null = null): Measured {
  const { take, truth, spec } = performance;
  const { chart } = spec;
  const { hands } = partHands(take, { soloPart: null, soloStaff: null, soloHand: null });
  const alignment = align(take, chart, hands, { method: "auto", tempo, anchors: [] });
  const beat = chart.meter.unit >= 8 ? 1.5 : 1;
  const bar = (chart.meter.beats * 4) / chart.meter.unit;
  const first = take.notes[0]!.onset;
  const last = take.notes.at(-1)!.onset;
  // The file's time runs on from the first note; truth is told in the same seconds.
  const estimated: number[] = [];
  for (let k = -200; k < 20_000; k++) {
    const t = secondsAt(alignment.map, k * beat);
    if (t > last + 0.1) break;
    if (t >= first - 0.1) estimated.push(t);
  }
  const window = alignment.method === "rubato" ? 0.25 : 0.07;
  const bars = alignment.bars.map((found) => {
    const b = (found.chorus - 1) * chart.bars.length + found.bar - 1;
    const [start, end] = [truth.secondsAt(b * bar), truth.secondsAt((b + 1) * bar)];
    const right =
      Math.abs(found.start - start) <= window && Math.abs(found.end - end) <= Math.max(window, 0.1);
    return { confidence: found.confidence, right };
  });
  const foundBars = new Map(
    alignment.bars.map((found) => [(found.chorus - 1) * chart.bars.length + found.bar - 1, found]),
  );
  const worstBar = truth.bars.reduce((worst, t, k) => {
    const found = foundBars.get(k + (spec.fromBar ?? 0));
    return Math.max(worst, found === undefined ? Number.POSITIVE_INFINITY : Math.abs(t - found.start));
  }, 0);
  const changes = truth.changes.map(({ position, seconds }) =>
    Math.abs(secondsAt(alignment.map, position) - seconds),
  );
  const placed = placeNotes(take, chart, chordSpans(chart), hands, alignment);
  let [placedRight, asked] = [0, 0];
  placed.forEach((note, i) => {
    const position = truth.positions[i];
    if (position === null || position === undefined) return;
    asked++;
    if (note.position !== null && Math.abs(note.position - position) < 0.02) placedRight++;
  });
  return {
    alignment,
    hands: hands.filter((h, i) => h.hand === truth.hands[i]).length / hands.length,
    beats: scoreBeats(truth.beats, estimated).f,
    choruses: alignment.choruses === truth.choruses,
    worstBar,
    bars,
    changes: changes.filter((error) => error <= 0.25).length / Math.max(1, changes.length),
    places: alignment.method === "rubato" ? null : placedRight / asked,
  };
}
