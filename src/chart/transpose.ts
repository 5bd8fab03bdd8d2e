import { classOf, transposeName } from "../pitch/index.ts";
import { Problem } from "../take/index.ts";
import { withRoot } from "./chord-symbol.ts";
import { keyName, usualKey } from "./key.ts";
import type { Chart, ChartChord, Key } from "./types.ts";

/**
 * The chart in another key, spelled as that key spells it: the fourth of Gb is Cb. Double accidentals are made
 * simple, and keys of more than seven accidentals give way to their enharmonic neighbour.
 *
 * Throws `Problem("another-mode")` when the key is major and the chart minor or the other way round.
 */
export function transposeChart(chart: Chart, asked: Key): Chart {
  const key = usualKey(asked);
  if (key.mode !== chart.key.mode) {
    throw new Problem(
      "another-mode",
      `A chart in ${keyName(chart.key)} cannot be transposed to ${keyName(key)}`,
      null,
      `Choose a ${chart.key.mode} key, or write another chart.`,
    );
  }
  const move = (name: string) => transposeName(name, chart.key.tonic, key.tonic);
  const moveChord = (written: ChartChord): ChartChord => {
    if (written.chord === null) return written;
    const chord = withRoot(written.chord, move(written.chord.root), move(written.chord.bass));
    return { ...written, chord, symbol: chord.symbol };
  };
  const moveKey = ({ tonic, mode }: Key): Key => {
    const moved = move(tonic);
    return usualKey({ tonic: moved, tonicClass: classOf(moved), mode });
  };
  const bars = chart.bars.map((bar) => ({
    ...bar,
    key: bar.key === null ? null : moveKey(bar.key),
    chords: bar.chords.map(moveChord),
  }));
  return { ...chart, key, bars };
}
