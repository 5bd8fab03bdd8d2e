import type { AccountNote } from "../account.ts";
import type { Sample } from "./sample.ts";

/** A note of one layer: where it stands in the bar and how long it is held, both as shares of the bar. */
export interface LayerNote {
  readonly id: string;
  readonly pitch: number;
  /** 0 at the bar line, below 1. */
  readonly start: number;
  readonly length: number;
  readonly role: AccountNote["role"];
}

/** A bar of the chart with what each side plays in it, one layer for each chorus of each side. */
export interface BarTogether {
  readonly bar: number;
  readonly chords: readonly string[];
  readonly layers: readonly {
    /** Index of the side. */
    readonly side: number;
    readonly chorus: number;
    readonly notes: readonly LayerNote[];
  }[];
}

/** The same bar of every side laid over one another. Empty when the sides have charts of different lengths. */
export function barsTogether(sides: readonly Sample[]): BarTogether[] {
  const [first] = sides;
  if (first === undefined || sides.some((side) => side.chart.bars.length !== first.chart.bars.length))
    return [];
  const byBar = first.chart.bars.map((bar) => ({
    bar: bar.number,
    chords: bar.chords.map((chord) => chord.symbol),
    layers: [] as { side: number; chorus: number; notes: LayerNote[] }[],
  }));
  sides.forEach((side, index) => {
    const times = new Map(side.bars.map((bar) => [`${bar.chorus}:${bar.bar}`, bar]));
    const layers = new Map<string, { side: number; chorus: number; notes: LayerNote[] }>();
    for (const note of side.notes) {
      const key = `${note.chorus}:${note.bar}`;
      const time = times.get(key);
      const target = byBar[note.bar - 1];
      if (time === undefined || target === undefined || note.bar < 1) continue;
      let layer = layers.get(key);
      if (layer === undefined) {
        layer = { side: index, chorus: note.chorus, notes: [] };
        layers.set(key, layer);
        target.layers.push(layer);
      }
      const length = time.end - time.start;
      layer.notes.push({
        id: note.id,
        pitch: note.pitch,
        start: Math.min(0.999, Math.max(0, (note.onset - time.start) / length)),
        length: note.duration / length,
        role: note.role,
      });
    }
  });
  return byBar;
}
