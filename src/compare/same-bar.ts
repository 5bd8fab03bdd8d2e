import type { BarTogether, LayerNote } from "./comparison-schema.ts";
import type { Sample } from "./sample.ts";

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
